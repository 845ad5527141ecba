// Whether the page will open a job of one's own: the starting job's drawing, which the build made, is then not shown.

/** Shows that drawing on a first visit. */
export function showStartingDrawing() {
  const isFirst = () => location.hash.length < 2 && !localStorage.getItem("staywright.job");
  try {
    document.querySelector(".first").hidden = !isFirst();
  } catch {
    // Where the store is switched off, nobody knows.
  }
}
