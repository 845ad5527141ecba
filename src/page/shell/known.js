// Marks a page that will open a job of its own: the starting job's drawing is then not shown.
try {
  if (location.hash.length > 1 || localStorage.getItem("staywright.job")) document.documentElement.className = "known";
} catch {
  // Where the store is switched off, every visit is a first one.
}
