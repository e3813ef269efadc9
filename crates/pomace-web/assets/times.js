// Times as the clock of whoever reads has them; the server writes them by the one of the world.
const MONTHS = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"];

export function here(when) {
  const at = new Date(when);
  if (Number.isNaN(at.getTime())) return when;
  const two = (number) => String(number).padStart(2, "0");
  return `${at.getDate()} ${MONTHS[at.getMonth()]} ${at.getFullYear()}, ${two(at.getHours())}:${two(at.getMinutes())}`;
}

export function tell(root) {
  for (const time of root.querySelectorAll("time[datetime]")) time.textContent = here(time.dateTime);
}
