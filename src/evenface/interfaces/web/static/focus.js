// What was just done is told once: said aloud, and gone from the address, so that loading again repeats nothing.

const did = document.getElementById("did");
if (did !== null) {
  const address = new URL(location.href);
  address.searchParams.delete("did");
  history.replaceState(history.state, "", address);
  // a place that cannot take the focus gives it to the words
  if (document.activeElement === document.body) did.focus({ preventScroll: true });
  // a status that is there from the start is not read: put in again it is
  const words = did.textContent;
  did.textContent = "";
  setTimeout(() => {
    did.textContent = words;
  }, 100);
}
