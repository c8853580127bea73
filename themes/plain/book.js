/* Comfort only: remembers the look, the choices and the ticks on this device, and moves the
   choices where a browser can't do it by style alone. Nothing is sent anywhere. Served over the
   web, and only then, the book offers itself for the home screen and stays there offline. */
"use strict";
(function () {
  function recall(key) {
    try { return window.localStorage.getItem(key); } catch (problem) { return null; }
  }
  function keep(key, value) {
    try { window.localStorage.setItem(key, value); } catch (problem) { /* a private window */ }
  }
  var look = recall("look");
  document.documentElement.dataset.look = look || "device"; // named, so that no style searches it

  var own = document.currentScript && document.currentScript.src;
  if (own && /^https?:$/.test(window.location.protocol)) {
    // a page in a folder would complain of the one, and can't count on the other
    [["manifest", "manifest.webmanifest"], ["icon", "icon.svg"]].forEach(function (pair) {
      var link = document.createElement("link");
      link.rel = pair[0];
      link.href = new URL(pair[1], own).href;
      document.head.appendChild(link);
    });
    window.addEventListener("load", function () {
      if (navigator.serviceWorker) {
        navigator.serviceWorker.register(new URL("worker.js", own).href)
          .catch(function () { /* served without the worker, or a private window */ });
      }
    });
  }

  function follow(recipe) {
    if (window.CSS && CSS.supports("selector(:has(*))")) { return; }
    var chosen = ["servings", "method"].map(function (name) {
      return recipe.querySelector('[name="' + name + '"]:checked').value;
    });
    recipe.querySelectorAll("[data-on]").forEach(function (part) {
      part.hidden = part.dataset.on.split(" ").indexOf(chosen.join("-")) < 0;
    });
    recipe.querySelectorAll("[data-sizes]").forEach(function (part) {
      part.hidden = part.dataset.sizes.split(" ").indexOf(chosen[0]) < 0;
    });
    recipe.querySelectorAll("[data-method]").forEach(function (part) {
      part.hidden = part.dataset.method !== chosen[1];
    });
    recipe.querySelectorAll("[data-servings]").forEach(function (cell) {
      cell.style.display = cell.dataset.servings === chosen[0] ? "table-cell" : "none";
    });
  }

  /* Method and servings of the form that a reader sends back follow what is chosen. */
  function fill(recipe) {
    var form = recipe.querySelector(".reply pre"), letter = recipe.querySelector(".reply a");
    if (!form) { return; }
    ["servings", "method"].forEach(function (name) {
      var chosen = recipe.querySelector('[name="' + name + '"]:checked');
      var key = form.dataset[name] + ": ", line = key + (chosen.dataset.word || chosen.value);
      form.textContent = form.textContent.replace(new RegExp("^" + key + ".*$", "m"), line);
      if (letter) {
        letter.href = letter.href.replace(
          new RegExp(encodeURIComponent(key) + ".*?%0D%0A"), encodeURIComponent(line + "\r\n"));
      }
    });
  }

  function restore(form, prefix) {
    form.querySelectorAll("input[type=radio]").forEach(function (input) {
      if (recall(prefix + input.name) === input.value) { input.checked = true; }
    });
  }

  /* A tick is kept under the title of its page: as a page of its own, or within one file. */
  function tickKey(input) {
    var page = input.closest("[data-title]");
    return "tick/" + (page ? page.dataset.title : document.title) + "/" + input.name;
  }

  /* Brings back what this device remembers of a page, or of all that stands in the document. */
  function ready(page) {
    page.querySelectorAll(".recipe").forEach(function (recipe) {
      restore(recipe.querySelector(".choose"), "choice/");
      follow(recipe);
      fill(recipe);
    });
    page.querySelectorAll(".tick input").forEach(function (input) {
      input.checked = recall(tickKey(input)) === "1";
    });
  }

  document.addEventListener("change", function (event) {
    var input = event.target;
    if (input.closest(".looks")) {
      keep("look", input.value);
      document.documentElement.dataset.look = input.value;
    } else if (input.closest(".choose")) {
      keep("choice/" + input.name, input.value);
      follow(input.closest(".recipe"));
      fill(input.closest(".recipe"));
    } else if (input.closest(".tick")) {
      keep(tickKey(input), input.checked ? "1" : "");
    }
  });

  // a book in one file says of each of its pages when it is shown, and none is made ready before
  document.addEventListener("pageshown", function (event) { ready(event.target); });

  document.addEventListener("DOMContentLoaded", function () {
    document.querySelectorAll(".looks input").forEach(function (input) {
      input.checked = input.value === (look || "device");
    });
    if (!document.documentElement.classList.contains("paged")) { ready(document); }
  });
})();
