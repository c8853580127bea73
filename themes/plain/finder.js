/* The finder: asks the index that stands on its page, and copies the lines that fit to the top.
   Everything it knows it reads from the page, once and not before somebody asks. Nothing is sent
   anywhere; ticks and figures stay on this device, words until the page is closed.

   A word that was typed is compared with each distinct word of the book, not with each meal:
   as it stands, as a beginning, as the end of a joined word (nuts of hazelnuts), or with slips
   (a letter wrong, missing, too much, or two that changed places): one in words of four letters
   and more, two from eight on. While a word is still being typed, slips are forgiven from a letter
   more on. */
"use strict";
(function () {
  var AT_ONCE = 6; // lines painted with the key press: more than a phone shows below the form
  var FIRST = 40; // lines that follow when no key was pressed for a moment
  var MOMENT = 120; // ms
  var LONGEST = 40; // letters; of longer words only what stands as typed is found
  // what a hit costs; the least first
  var TITLE = 0, ALLERGEN = 1, STORE = 2, MADE_WITH = 3, WAY = 5, SERIES = 6, BLURB = 8;
  var PLURAL = 1, BEGUN = 2, JOINED = 3, SLIP = 12;
  var JOINT = 3; // letters of a joined word before its end, and of the end itself, at the least
  var NONE = 255;

  function recalled(where, key) {
    try { return JSON.parse(window[where].getItem(key)) || {}; } catch (problem) { return {}; }
  }
  function keep(where, key, value) {
    try { window[where].setItem(key, JSON.stringify(value)); } catch (problem) { /* private */ }
  }
  function each(list, act) { Array.prototype.forEach.call(list, act); }
  function listed(text) { return text ? text.split(" ") : []; }
  function filled(text, gaps) {
    return text.replace(/\{(\w+)\}/g, function (gap, name) {
      return name in gaps ? gaps[name] : gap;
    });
  }

  /* Words ------------------------------------------------------------------------------------ */

  var LETTERS, MARKS;
  try {
    LETTERS = new RegExp("[\\p{L}\\p{N}]+", "gu");
    MARKS = new RegExp("\\p{M}+", "gu");
  } catch (problem) { // an old tablet
    LETTERS = /[^\s!-\/:-@\[-`{-~\u2010-\u2027]+/g;
    MARKS = /[\u0300-\u036f]+/g;
  }
  function wordsOf(text) {
    return text.toLowerCase().replace(/ß/g, "ss").normalize("NFKD").replace(MARKS, "")
      .match(LETTERS) || [];
  }
  function forgiven(letters) { return letters < 4 ? 0 : letters < 8 ? 1 : 2; }
  function isPlural(word, typed) { return word === typed + "s" || word === typed + "es"; }
  function ends(word, typed) { // a joined word ends so, or so in the plural
    var at = word.lastIndexOf(typed);
    return at >= JOINT && word.length - at - typed.length <= 2;
  }
  function mask(word) { // which letters it has; two may share a bit
    var found = 0;
    for (var at = 0; at < word.length; at++) { found |= 1 << (word.charCodeAt(at) & 31); }
    return found;
  }
  function bits(number) {
    var count = 0;
    for (; number; number &= number - 1) { count++; }
    return count;
  }

  /* Optimal string alignment within a band: slips from one word to another, or, where it is open,
     to the nearest beginning of the other; most + 1 where there are more than most. */
  var rows = [new Uint8Array(LONGEST + 2), new Uint8Array(LONGEST + 2), new Uint8Array(LONGEST + 2)];
  function slips(typed, word, most, open) {
    var n = typed.length, m = word.length, over = most + 1;
    if (n - m > most || (!open && m - n > most) || n > LONGEST || m > LONGEST) { return over; }
    var before = rows[0], now = rows[1], last = rows[2], spare, i, j;
    for (j = 0; j <= Math.min(m, most); j++) { now[j] = j; }
    if (most < m) { now[over] = over; }
    var least = 0, leastBefore;
    for (i = 1; i <= n; i++) {
      spare = last; last = before; before = now; now = spare;
      var from = Math.max(1, i - most), to = Math.min(m, i + most), letter = typed.charCodeAt(i - 1);
      leastBefore = least;
      least = now[from - 1] = from === 1 ? Math.min(i, over) : over;
      for (j = from; j <= to; j++) {
        var other = word.charCodeAt(j - 1);
        var best = before[j - 1] + (letter === other ? 0 : 1);
        if (before[j] + 1 < best) { best = before[j] + 1; }
        if (now[j - 1] + 1 < best) { best = now[j - 1] + 1; }
        if (i > 1 && j > 1 && letter === word.charCodeAt(j - 2) &&
            typed.charCodeAt(i - 2) === other && last[j - 2] + 1 < best) { best = last[j - 2] + 1; }
        now[j] = best;
        if (best < least) { least = best; }
      }
      if (to < m) { now[to + 1] = over; }
      if (least > most && leastBefore >= most) { rows = [before, now, last]; return over; }
    }
    rows = [before, now, last];
    if (!open) { return Math.min(now[m], over); }
    best = over;
    for (j = Math.max(0, n - most); j <= Math.min(m, n + most); j++) {
      if (now[j] < best) { best = now[j]; }
    }
    return best;
  }

  /* The book, read from its index ------------------------------------------------------------ */

  function Book(root) {
    var book = this;
    this.meals = [];
    this.stores = {};
    each(root.querySelectorAll(".held [data-store]"), function (line) {
      book.stores[line.dataset.store] = {
        name: line.querySelector("a").textContent,
        called: line.dataset.called ? line.dataset.called.split("; ") : [],
        madeWith: line.dataset.madeWith ? line.dataset.madeWith.split("; ") : []
      };
    });
    this.named = {without: {}, way: {}}; // allergens and ways, as their boxes call them
    each(root.querySelectorAll(".wishes [type=checkbox]"), function (box) {
      var kind = book.named[box.name.split("/")[0]];
      if (kind) { kind[box.value] = box.nextElementSibling.textContent; }
    });
    each(root.querySelectorAll(".names .meals > li"), function (line, at) {
      var data = line.dataset, times = {};
      listed(data.ways).forEach(function (way) {
        var pair = way.split(":");
        times[pair[0]] = +pair[1];
      });
      book.meals.push({
        at: at, line: line, times: times, ways: Object.keys(times), energy: +data.energy,
        needs: listed(data.needs), allergens: listed(data.allergens), row: null, why: null, said: ""
      });
    });
  }

  /* Every distinct word with the meals where it stands: the field, and what to say of it. */
  Book.prototype.words = function () {
    if (this.distinct) { return this.distinct; }
    var book = this, found = Object.create(null), all = [];
    function put(text, meal, field, why) {
      wordsOf(text).forEach(function (word) {
        var entry = found[word];
        if (!entry) {
          entry = found[word] = {
            word: word, mask: mask(word), beyondBlurbs: false, meals: [], fields: [], whys: []
          };
          all.push(entry);
        }
        if (field !== BLURB) { entry.beyondBlurbs = true; }
        var last = entry.meals.length - 1;
        if (entry.meals[last] !== meal) { last++; } // else the least that it costs there stays
        else if (entry.fields[last] <= field) { return; }
        entry.meals[last] = meal;
        entry.fields[last] = field;
        entry.whys[last] = why;
      });
    }
    this.meals.forEach(function (meal) {
      var data = meal.line.dataset;
      put(meal.line.querySelector("a").textContent, meal.at, TITLE, null);
      meal.ways.forEach(function (way) { put(book.named.way[way] || "", meal.at, WAY, null); });
      meal.allergens.forEach(function (allergen) {
        var name = book.named.without[allergen] || "";
        put(name, meal.at, ALLERGEN, {store: name});
      });
      put(data.series, meal.at, SERIES, {series: data.series});
      put(data.blurb, meal.at, BLURB, {blurb: data.blurb});
      listed(data.holds).forEach(function (address) {
        var store = book.stores[address];
        if (!store) { return; }
        put(store.name, meal.at, STORE, {store: store.name});
        store.called.forEach(function (name) {
          put(name, meal.at, STORE, {store: store.name, name: name});
        });
        store.madeWith.forEach(function (name) {
          put(name, meal.at, MADE_WITH, {store: store.name, part: name});
        });
      });
    });
    this.known = Object.create(null);
    this.remembered = 0;
    this.distinct = all;
    return all;
  };

  /* What one typed word costs in each meal, and why it is there. */
  Book.prototype.hits = function (typed) {
    var all = this.words(), most = forgiven(typed.length - 1), typedMask = mask(typed);
    if (this.known[typed]) { return this.known[typed]; }
    var costs = new Uint8Array(this.meals.length).fill(NONE), whys = new Array(this.meals.length);
    function note(entry, cost, blurbs) {
      var meals = entry.meals, fields = entry.fields;
      for (var at = 0; at < meals.length; at++) {
        var meal = meals[at], sum = cost + fields[at];
        if (sum < costs[meal] && (blurbs || fields[at] !== BLURB)) {
          costs[meal] = sum;
          whys[meal] = entry.whys[at];
        }
      }
    }
    var asTyped = false, begun = [], at, entry;
    for (at = 0; at < all.length; at++) {
      entry = all[at];
      if (entry.word.lastIndexOf(typed, 0) === 0) {
        note(entry, entry.word.length === typed.length ? 0
          : isPlural(entry.word, typed) ? PLURAL : BEGUN, true);
        asTyped = true;
      } else if (typed.length >= JOINT && !(typedMask & ~entry.mask) && ends(entry.word, typed)) {
        note(entry, JOINED, true);
      } else if (entry.beyondBlurbs || !asTyped) {
        begun.push(entry);
      }
    }
    // what a blurb says is only guessed at where nothing stands as it was typed
    for (at = 0; at < begun.length; at++) {
      entry = begun[at];
      if (asTyped && !entry.beyondBlurbs) { continue; }
      var whole = forgiven(entry.word.length), worth = Math.max(whole, most);
      if (!worth || bits(typedMask & ~entry.mask) > worth) { continue; }
      var cost = whole ? slips(typed, entry.word, whole, false) : 1;
      if (cost <= whole) { note(entry, SLIP * cost, !asTyped); continue; }
      if (!most) { continue; }
      cost = slips(typed, entry.word, most, true);
      if (cost <= most) { note(entry, SLIP * cost + 1, !asTyped); }
    }
    if (this.remembered++ > 99) {
      this.known = Object.create(null);
      this.remembered = 0;
    }
    return (this.known[typed] = {costs: costs, whys: whys});
  };

  /* Wishes ----------------------------------------------------------------------------------- */

  function ticked(boxes) {
    return boxes.filter(function (box) { return box.checked; })
      .map(function (box) { return box.value; });
  }
  function positive(input) {
    var value = parseFloat(input.value); // what is out of bounds is said beside it
    return value > 0 && (!input.validity || input.validity.valid) ? value : 0;
  }

  /* Each wish says whether a meal grants it; `without` none of them is left out for an answer. */
  function tests(book, wish) {
    var found = {};
    if (wish.words.length) {
      var hits = wish.words.map(function (word) { return book.hits(word); });
      found.words = function (meal) {
        return hits.every(function (hit) { return hit.costs[meal.at] !== NONE; });
      };
      found.words.hits = hits;
    }
    if (wish.have.length) {
      var has = Object.create(null);
      wish.have.forEach(function (store) { has[store] = true; });
      found.shelf = function (meal) {
        var lacks = 0;
        meal.lacks = "";
        for (var at = 0; at < meal.needs.length; at++) {
          if (!has[meal.needs[at]]) {
            if (lacks++) { return false; }
            meal.lacks = meal.needs[at];
          }
        }
        return true;
      };
    }
    if (wish.ways.length) {
      found.way = function (meal) {
        return wish.ways.some(function (way) { return way in meal.times; });
      };
    }
    if (wish.within) {
      found.within = function (meal) { return soonest(meal, wish) <= wish.within; };
    }
    if (wish.without.length) {
      found.without = function (meal) {
        return !wish.without.some(function (name) { return meal.allergens.indexOf(name) >= 0; });
      };
    }
    if (wish.energy) { found.energy = function (meal) { return meal.energy >= wish.energy; }; }
    return found;
  }
  function soonest(meal, wish) { // by the ways that are wished for, or by any
    var ways = wish.ways.length ? wish.ways : meal.ways, least = Infinity;
    for (var at = 0; at < ways.length; at++) {
      if (meal.times[ways[at]] < least) { least = meal.times[ways[at]]; }
    }
    return least;
  }
  function granted(book, wishes, but) {
    var names = Object.keys(wishes).filter(function (name) { return name !== but; });
    return book.meals.filter(function (meal) {
      return names.every(function (name) { return wishes[name](meal); });
    });
  }
  function cost(meal, wishes) {
    return wishes.words ? wishes.words.hits.reduce(function (sum, hit) {
      return sum + hit.costs[meal.at];
    }, 0) : 0;
  }

  /* The page --------------------------------------------------------------------------------- */

  function Finder(root) {
    var finder = this, form = root.querySelector(".wishes");
    this.root = root;
    this.say = root.dataset;
    this.form = form;
    this.key = "finder/" + root.dataset.book;
    this.boxes = {have: [], way: [], without: []};
    each(form.querySelectorAll("input[type=checkbox]"), function (box) {
      finder.boxes[box.name.split("/")[0]].push(box);
    });
    this.fields = {};
    ["words", "within", "energy"].forEach(function (name) {
      finder.fields[name] = form.querySelector('[name="' + name + '"]');
    });
    this.order = Array.prototype.slice.call(form.querySelectorAll('[name="by"]'));
    this.tabs = Array.prototype.slice.call(form.querySelectorAll(".tab"));
    this.found = root.querySelector(".found");
    this.count = form.querySelector(".count p");
    this.clear = form.querySelector(".clear");
    this.nothing = root.querySelector(".nothing");
    this.lots = ["whole", "short"].map(function (name) {
      var lot = root.querySelector(".lot." + name);
      return {
        box: lot, head: lot.querySelector("h2"), list: lot.querySelector("ul"),
        more: lot.querySelector(".more"), all: false, meals: []
      };
    });
    this.restore();
    this.listen();
    form.hidden = false;
    this.ask();
  }

  Finder.prototype.listen = function () {
    var finder = this, form = this.form, told = null;
    function changed(event) {
      if (event.type === "change" && told === event.target) { return; }
      if (event.type === "input") { told = event.target; } // most boxes tell it twice
      finder.lots.forEach(function (lot) { lot.all = false; });
      finder.ask();
      finder.unsaved = true;
    }
    window.addEventListener("pagehide", function () { finder.remember(); });
    this.fields.words.addEventListener("focus", function () { finder.book.words(); });
    form.addEventListener("input", changed);
    form.addEventListener("change", changed);
    form.addEventListener("submit", function (event) { event.preventDefault(); });
    form.addEventListener("keydown", function (event) {
      if (event.key !== "Enter" || event.isComposing || !/search|number/.test(event.target.type)) {
        return;
      }
      var first = finder.found.querySelector(".meals a");
      if (first) { first.focus(); }
    });
    this.tabs.forEach(function (tab) {
      tab.addEventListener("click", function () {
        finder.open(tab.getAttribute("aria-expanded") === "true" ? "" : tab.dataset.drawer);
        finder.unsaved = true;
        finder.remember();
      });
    });
    each(form.querySelectorAll("[data-tick]"), function (button) {
      button.addEventListener("click", function () {
        var within = button.dataset.tick === "these" ? button.closest("fieldset") : form;
        finder.boxes.have.forEach(function (box) {
          if (within.contains(box)) { box.checked = button.dataset.tick !== "none"; }
        });
        changed({target: button});
      });
    });
    this.clear.addEventListener("click", function () {
      ["words", "shelf", "way", "within", "without", "energy"].forEach(function (wish) {
        finder.release(wish);
      });
      changed({target: form});
      finder.fields.words.focus();
    });
    this.lots.forEach(function (lot) {
      lot.more.addEventListener("click", function () {
        var next = lot.list.children.length;
        lot.all = true;
        finder.fill();
        if (lot.list.children[next]) { lot.list.children[next].querySelector("a").focus(); }
      });
    });
  };

  Finder.prototype.open = function (drawer) {
    this.opened = drawer;
    this.tabs.forEach(function (tab) {
      tab.setAttribute("aria-expanded", String(tab.dataset.drawer === drawer));
    });
    each(this.form.querySelectorAll(".drawer"), function (part) {
      part.hidden = part.dataset.drawer !== drawer;
    });
  };

  Finder.prototype.release = function (wish) {
    var boxes = {shelf: "have", way: "way", without: "without"}[wish];
    if (boxes) {
      this.boxes[boxes].forEach(function (box) { box.checked = false; });
    } else {
      this.fields[wish].value = "";
    }
  };

  Finder.prototype.wish = function () {
    return {
      words: wordsOf(this.fields.words.value), have: ticked(this.boxes.have),
      ways: ticked(this.boxes.way), without: ticked(this.boxes.without),
      within: positive(this.fields.within), energy: positive(this.fields.energy),
      by: this.order.filter(function (input) { return input.checked; })[0].value
    };
  };

  /* What was chosen, written down once nothing was pressed for a moment: it takes longer than to
     find an answer. */
  Finder.prototype.remember = function () {
    if (!this.unsaved) { return; }
    this.unsaved = false;
    var kept = {
      within: this.fields.within.value, energy: this.fields.energy.value, by: this.wish().by,
      drawer: this.opened || "", ticks: []
    };
    ["have", "way", "without"].forEach(function (kind) {
      this.boxes[kind].forEach(function (box) { if (box.checked) { kept.ticks.push(box.name); } });
    }, this);
    keep("localStorage", this.key, kept);
    keep("sessionStorage", this.key, {words: this.fields.words.value});
  };
  Finder.prototype.restore = function () {
    var kept = recalled("localStorage", this.key), ticks = kept.ticks || [];
    this.fields.words.value = recalled("sessionStorage", this.key).words || "";
    this.fields.within.value = kept.within || "";
    this.fields.energy.value = kept.energy || "";
    this.order.forEach(function (input) { input.checked = input.value === (kept.by || "best"); });
    ["have", "way", "without"].forEach(function (kind) {
      this.boxes[kind].forEach(function (box) { box.checked = ticks.indexOf(box.name) >= 0; });
    }, this);
    this.open(kept.drawer || "");
  };

  /* Answer: what fits, in its order, and what to loosen where nothing does. */
  Finder.prototype.ask = function () {
    this.book = this.book || new Book(this.root);
    var wish = this.wish(), wishes = tests(this.book, wish), finder = this;
    var asked = Object.keys(wishes).length > 0, fit = asked ? granted(this.book, wishes) : [];
    var sorts = {
      best: function (a, b) { return a.cost - b.cost || a.at - b.at; },
      soonest: function (a, b) { return a.soonest - b.soonest || a.at - b.at; },
      energy: function (a, b) { return b.energy - a.energy || a.at - b.at; }
    };
    fit.forEach(function (meal) {
      meal.cost = cost(meal, wishes);
      meal.soonest = wish.by === "soonest" ? soonest(meal, wish) : 0;
    });
    if (wishes.words || wish.by !== "best") { fit.sort(sorts[wish.by]); } // else as the index has it
    var split = !!wishes.shelf;
    var whole = split ? fit.filter(function (meal) { return !meal.lacks; }) : fit;
    var short = split ? fit.filter(function (meal) { return meal.lacks; }) : [];
    this.wishes = wishes;
    this.within = wish.within;
    this.lots[0].meals = whole;
    this.lots[1].meals = short;
    this.lots.forEach(function (lot) {
      lot.box.hidden = !lot.meals.length;
      lot.head.hidden = !split;
      lot.more.hidden = true;
      finder.show(lot, AT_ONCE);
    });
    window.clearTimeout(this.later);
    this.later = window.setTimeout(function () {
      finder.fill();
      finder.remember();
    }, MOMENT);
    var found = this.found;
    if (wish.ways.length) {
      found.setAttribute("data-ways", wish.ways.join(" "));
    } else {
      found.removeAttribute("data-ways");
    }
    found.hidden = !asked;
    var say = this.say, text = !asked ? filled(say.all, {n: this.book.meals.length})
      : split ? filled(say.whole, {n: whole.length}) + " " + filled(say.short, {n: short.length})
      : filled(say.fit, {n: whole.length});
    write(this.count, text);
    this.clear.hidden = !asked;
    this.loosen(asked && !fit.length ? wishes : null, wish);
    var set = {
      shelf: wish.have.length, ready: wish.ways.length + (wish.within ? 1 : 0),
      without: wish.without.length, energy: wish.energy ? 1 : 0
    };
    this.tabs.forEach(function (tab) {
      var count = tab.querySelector(".set");
      write(count, set[tab.dataset.drawer] ? String(set[tab.dataset.drawer]) : "");
      count.hidden = !set[tab.dataset.drawer];
    });
    return finder;
  };

  function write(element, text) {
    if (element.textContent !== text) { element.textContent = text; }
  }

  Finder.prototype.fill = function () {
    this.lots.forEach(function (lot) {
      var shown = lot.all ? lot.meals.length : Math.min(FIRST, lot.meals.length);
      this.show(lot, shown);
      lot.more.hidden = shown === lot.meals.length;
      write(lot.more, filled(this.say.more, {n: lot.meals.length - shown}));
    }, this);
  };

  /* Copies of the lines of the first meals of a lot, only what changed touched. */
  Finder.prototype.show = function (lot, most) {
    var at = lot.list.firstChild, next;
    lot.meals.slice(0, most).forEach(function (meal) {
      var row = this.row(meal, this.wishes);
      if (row === at) {
        at = at.nextSibling;
      } else {
        lot.list.insertBefore(row, at);
      }
    }, this);
    for (; at; at = next) {
      next = at.nextSibling;
      lot.list.removeChild(at);
    }
  };

  Finder.prototype.row = function (meal, wishes) {
    if (!meal.row) {
      meal.row = meal.line.cloneNode(true);
      meal.spans = meal.row.querySelectorAll("[data-way]");
      meal.within = 0;
      meal.row.removeAttribute("data-initial");
      meal.why = meal.row.appendChild(document.createElement("p"));
      meal.why.className = "why";
      meal.why.hidden = true;
    }
    var within = this.within;
    if (meal.within !== within) { // only the ways that are ready then
      meal.within = within;
      each(meal.spans, function (span) {
        span.hidden = within > 0 && meal.times[span.dataset.way] > within;
      });
    }
    var said = this.reasons(meal, wishes).join(", ");
    if (said !== meal.said) {
      meal.said = meal.why.textContent = said;
      meal.why.hidden = !said;
    }
    return meal.row;
  };

  Finder.prototype.reasons = function (meal, wishes) {
    var say = this.say, found = [];
    function add(text) { if (found.indexOf(text) < 0) { found.push(text); } }
    if (wishes.shelf && meal.lacks) {
      add(filled(say.lacks, {store: this.book.stores[meal.lacks].name}));
    }
    (wishes.words ? wishes.words.hits : []).forEach(function (hit) {
      var why = hit.whys[meal.at];
      if (why && why.part) { add(filled(say.madeWith, {store: why.store, name: why.part})); }
      else if (why && why.name) { add(filled(say.called, why)); }
      else if (why && why.store) { add(filled(say.holds, why)); }
      else if (why && why.series) { add(filled(say.withinSeries, why)); }
      else if (why) { add(why.blurb); }
    });
    return found;
  };

  /* Where nothing fits: which one wish to let go of. What somebody may be allergic to is never
     offered as the one. */
  Finder.prototype.loosen = function (wishes, wish) {
    var box = this.nothing, list = box.querySelector("ul"), finder = this;
    box.hidden = !wishes;
    if (!wishes) { return; }
    list.textContent = "";
    var say = this.say, cause = "";
    var names = {
      words: filled(say.wishWords, {words: this.fields.words.value.trim()}),
      shelf: say.wishShelf, way: say.wishWay,
      within: filled(say.wishWithin, {n: wish.within}),
      energy: filled(say.wishEnergy, {n: wish.energy})
    };
    Object.keys(wishes).forEach(function (name) {
      var left = granted(finder.book, wishes, name).length;
      if (!left) { return; }
      if (name === "without") {
        cause = filled(say.keepOff, {allergens: finder.boxes.without.filter(function (one) {
          return one.checked;
        }).map(function (one) { return one.nextElementSibling.textContent; }).join(", ")});
        return;
      }
      var button = document.createElement("button");
      button.type = "button";
      button.textContent = filled(say.loosen, {wish: names[name], n: left});
      button.addEventListener("click", function () {
        finder.release(name);
        finder.ask();
        finder.unsaved = true;
        finder.fields.words.focus();
      });
      list.appendChild(document.createElement("li")).appendChild(button);
    });
    write(box.querySelector(".cause"), cause || (list.firstChild ? "" : say.several));
  };

  function begin() { each(document.querySelectorAll(".finder"), function (root) { new Finder(root); }); }
  if (document.readyState === "loading") {
    document.addEventListener("DOMContentLoaded", begin);
  } else {
    begin();
  }
})();
