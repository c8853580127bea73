/* Comfort of a preview: what a reader folded or unfolded stays so when the page is loaded again.
   It is forgotten with the window, and nothing is sent anywhere. */
"use strict";
(function () {
  var panel = document.querySelector(".preview-panel details"), key = "preview/" + location.pathname;
  var folds = Array.from(document.querySelectorAll("details")).filter(function (one) {
    return one !== panel;
  });
  function recall(name) {
    try { return JSON.parse(window.sessionStorage.getItem(name)); } catch (problem) { return null; }
  }
  function keep(name, value) {
    try { window.sessionStorage.setItem(name, JSON.stringify(value)); } catch (problem) { /* off */ }
  }
  var text = panel && panel.textContent, kept = recall("preview/panel");
  if (panel && kept && kept.text === text) { panel.open = kept.open; } // else there is news in it
  (recall(key) || []).forEach(function (at) { if (folds[at]) { folds[at].open = true; } });
  window.addEventListener("pagehide", function () {
    if (panel) { keep("preview/panel", { text: text, open: panel.open }); }
    keep(key, folds.map(function (one, at) { return one.open ? at : -1; })
      .filter(function (at) { return at >= 0; }));
  });
})();
