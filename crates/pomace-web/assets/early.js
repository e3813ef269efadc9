// Before anything is painted: the look that was chosen on this device.
{
  const chosen = localStorage.getItem("pomace:look");
  if (chosen === "light" || chosen === "dim") document.documentElement.classList.add(chosen);
}
