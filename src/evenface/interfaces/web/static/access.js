// The code behind # in the address on the screen's square: filled in and sent, never part of a request's address.
const code = new URLSearchParams(location.hash.slice(1)).get("code");
if (code) {
  history.replaceState(null, "", location.pathname);
  const form = document.querySelector("form");
  form.elements.code.value = code;
  if (!document.querySelector("[role=alert]")) form.requestSubmit();
}
