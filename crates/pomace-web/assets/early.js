// Before anything is painted: the look that was chosen on this device.
{
  document.documentElement.classList.add("js");
  try {
    const chosen = localStorage.getItem("pomace:look");
    if (chosen === "light" || chosen === "dim") document.documentElement.classList.add(chosen);
  } catch {
    // A browser that keeps nothing shows the look that the device likes.
  }
}
