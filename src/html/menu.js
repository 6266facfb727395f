// The list of sheets shuts once a sheet is chosen.
document.querySelector("nav").addEventListener("click", function (event) {
  if (event.target.tagName === "A") { this.querySelector("details").open = false; }
});
