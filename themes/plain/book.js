/* Comfort only: remembers the look, the choices and the ticks on this device, and moves the
   choices where a browser can't do it by style alone. Nothing is sent anywhere. */
"use strict";
(function () {
  function recall(key) {
    try { return window.localStorage.getItem(key); } catch (problem) { return null; }
  }
  function keep(key, value) {
    try { window.localStorage.setItem(key, value); } catch (problem) { /* a private window */ }
  }
  var look = recall("look");
  if (look) { document.documentElement.dataset.look = look; }

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

  function restore(form, prefix) {
    form.querySelectorAll("input[type=radio]").forEach(function (input) {
      if (recall(prefix + input.name) === input.value) { input.checked = true; }
    });
  }

  document.addEventListener("DOMContentLoaded", function () {
    document.querySelectorAll(".looks input").forEach(function (input) {
      input.checked = input.value === (look || "device");
      input.addEventListener("change", function () {
        keep("look", input.value);
        document.documentElement.dataset.look = input.value;
      });
    });
    document.querySelectorAll(".recipe").forEach(function (recipe) {
      var form = recipe.querySelector(".choose");
      restore(form, "choice/");
      form.addEventListener("change", function (event) {
        keep("choice/" + event.target.name, event.target.value);
        follow(recipe);
      });
      follow(recipe);
    });
    document.querySelectorAll(".tick input").forEach(function (input) {
      var key = "tick/" + document.title + "/" + input.name;
      input.checked = recall(key) === "1";
      input.addEventListener("change", function () { keep(key, input.checked ? "1" : ""); });
    });
  });
})();
