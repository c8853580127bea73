/* A book in one file: shows the page that the address names, and tells its title, its part of the
   book and its place on the screen. Without this the style alone shows it. */
"use strict";
(function () {
  var root = document.documentElement, shown = null;
  root.classList.add("paged");

  function named(hash) {
    try { return decodeURIComponent(hash.slice(1)); } catch (problem) { return hash.slice(1); }
  }

  function contents() { return document.querySelector(".page"); }

  /* The name of a place on a page is the page's, a full stop and its own. */
  function pageOf(hash) {
    var page = hash.length > 1 && document.getElementById(named(hash).split(".")[0]);
    return page && page.classList.contains("page") ? page : null;
  }

  /* In a large book each recipe lies folded in a noscript, as text, until it is first wanted:
     a browser that runs scripts reads it in a fraction of the time, and any other unfolded. */
  function unfold(page) {
    var fold = page.querySelector("noscript");
    if (fold) {
      var made = document.createElement("template");
      made.innerHTML = fold.textContent;
      page.replaceChild(made.content, fold);
    }
  }

  /* Shows one page and no other. A page that is shown again follows what was chosen since. */
  function show(page) {
    if (!page || page === shown) { return; }
    if (shown) { shown.classList.remove("shown"); }
    shown = page;
    unfold(page);
    page.classList.add("shown");
    root.classList.toggle("elsewhere", page !== contents());
    document.title = page.dataset.title;
    document.querySelectorAll(".masthead nav a").forEach(function (link) {
      if (link.hash === "#" + page.id) { link.setAttribute("aria-current", "page"); }
      else { link.removeAttribute("aria-current"); }
    });
    page.dispatchEvent(new CustomEvent("pageshown", { bubbles: true }));
  }

  function follow() { show(pageOf(window.location.hash) || contents()); }

  // Shown before the browser scrolls and moves the focus, so that it finds the place.
  document.addEventListener("click", function (event) {
    var link = event.target.closest("a[href^='#']");
    if (!link || event.defaultPrevented || event.ctrlKey || event.metaKey || event.shiftKey) {
      return;
    }
    var page = pageOf(link.hash), place = document.getElementById(named(link.hash));
    if (page) {
      show(page);
    } else if (place && shown) { // the look and the skip link: the page stays, and so does the address
      event.preventDefault();
      place = link.classList.contains("skip") ? shown : place.querySelector(":checked") || place;
      place.scrollIntoView();
      place.focus({ preventScroll: true });
    }
  });
  window.addEventListener("beforeprint", function () {
    if (shown === contents()) { document.querySelectorAll(".page").forEach(unfold); }
  });
  window.addEventListener("popstate", follow);
  window.addEventListener("hashchange", follow);

  var asked = named(window.location.hash);
  if (asked.indexOf("p-") === 0) { root.classList.add("elsewhere"); }
  document.addEventListener("DOMContentLoaded", function () {
    document.querySelector(".skip").hidden = false;
    follow();
    var place = asked && document.getElementById(asked);
    if (place && place !== shown) { place.scrollIntoView(); }
  });
})();
