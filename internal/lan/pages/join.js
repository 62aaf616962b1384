// The QR code carries the join code in the fragment, which browsers send to
// nobody. It is taken out of the address, so that no history keeps it.
const code = location.hash.slice(1);
if (code) {
  history.replaceState(null, '', location.pathname);
  const form = document.querySelector('form');
  form.elements.code.value = code;
  form.requestSubmit();
}
