(function () {
  "use strict";
  // No character here means anything in markup, so that the file is well-formed as it stands.
  var root = document.documentElement;
  var key = root.getAttribute("data-key");
  var title = root.getAttribute("data-title");
  var fields = Array.from(document.querySelectorAll("[data-f]"));
  var start = {};
  var byName = {};
  var keeps = true;

  function find(id) { return document.getElementById(id); }
  function read(field) { return field.type === "checkbox" ? (field.checked ? "yes" : "no") : field.value; }
  function put(field, value) {
    if (field.type === "checkbox") { field.checked = value === "yes"; } else { field.value = value; }
  }
  function changed() {
    return fields.filter(function (field) { return read(field) !== start[field.dataset.f]; });
  }
  function label(field) { return field.getAttribute("aria-label").replace(/=/g, ":"); }
  function sheet(field) {
    var section = field.closest("section");
    var heading = section ? section.querySelector("h1, h2") : null;
    return heading ? heading.textContent.trim() : "";
  }
  function asText() {
    var lines = [title];
    var last = "";
    changed().forEach(function (field) {
      var now = sheet(field);
      if (now !== last) { lines.push("", now); last = now; }
      lines.push(label(field) + " = " + read(field).replace(/\s*\n\s*/g, " / ") + "  [" + field.dataset.f + "]");
    });
    return (lines.join("\n") + "\n").replace(/[\u2010\u2011]/g, "-").replace(/[\u00a0\u202f]/g, " ").replace(/\u2060/g, "");
  }
  function keep() {
    var kept = {};
    changed().forEach(function (field) { kept[field.dataset.f] = read(field); });
    try { localStorage.setItem(key, JSON.stringify(kept)); } catch (fault) { warn(); }
    find("copied").value = asText();
  }
  function warn() {
    keeps = false;
    find("keeps").textContent = "This browser keeps nothing of a local page: copy out what you typed before you close it.";
  }
  function say(words) { find("said").textContent = words; }
  function copied(worked) {
    say(worked ? "Copied." : "Select the text below and copy it by hand.");
    if (!worked) { find("copied").select(); }
  }

  fields.forEach(function (field) { start[field.dataset.f] = read(field); byName[field.dataset.f] = field; });
  try {
    var kept = JSON.parse(localStorage.getItem(key) || "{}");
    fields.forEach(function (field) {
      if (Object.prototype.hasOwnProperty.call(kept, field.dataset.f)) { put(field, kept[field.dataset.f]); }
    });
  } catch (fault) { warn(); }
  find("copied").value = asText();
  document.addEventListener("input", function (event) { if (event.target.dataset.f) { keep(); } });
  document.addEventListener("change", function (event) { if (event.target.dataset.f) { keep(); } });
  find("copy").addEventListener("click", function () {
    var area = find("copied");
    area.value = asText();
    if (navigator.clipboard) {
      navigator.clipboard.writeText(area.value).then(function () { copied(true); }, function () { copied(false); });
    } else {
      area.select();
      copied(document.execCommand("copy"));
    }
  });
  find("fill").addEventListener("click", function () {
    var text = find("back").value;
    if (text.split("\n")[0].trim() !== title) {
      say("That text is of another paper or another issue; nothing was filled in.");
      return;
    }
    var count = 0;
    text.split("\n").forEach(function (line) {
      var parts = /^[^=]* = (.*?) {2}\[([^\]]+)\]\s*$/.exec(line);
      var field = parts ? byName[parts[2]] : null;
      if (field) { put(field, field.tagName === "TEXTAREA" ? parts[1].replace(/ \/ /g, "\n") : parts[1]); count += 1; }
    });
    keep();
    say(count + " filled in.");
  });
  find("clear").addEventListener("click", function () {
    if (!confirm("Empty every field?")) { return; }
    fields.forEach(function (field) { put(field, start[field.dataset.f]); });
    keep();
    say("Emptied.");
  });
  window.addEventListener("beforeunload", function (event) {
    if (!keeps) { if (changed().length !== 0) { event.preventDefault(); } }
  });
}());
