// What is not yet on the server's disk is kept on this device.

const at = (id) => `pomace:doc:${id}`;

export function load(id) {
  try {
    return JSON.parse(localStorage.getItem(at(id)));
  } catch {
    return null;
  }
}

// Tells whether it could be kept: a full or forbidden storage is said, not hidden.
export function keep(id, state) {
  try {
    localStorage.setItem(at(id), JSON.stringify(state));
    return true;
  } catch {
    return false;
  }
}

export const drop = (id) => localStorage.removeItem(at(id));

// Words in fields that were not sent yet, by the place of the field.
const typing = (id) => `pomace:typing:${id}`;

export function typed(id) {
  try {
    return JSON.parse(localStorage.getItem(typing(id))) ?? {};
  } catch {
    return {};
  }
}

export function keepTyped(id, words) {
  try {
    if (Object.keys(words).length) localStorage.setItem(typing(id), JSON.stringify(words));
    else localStorage.removeItem(typing(id));
  } catch {
    // Nothing more can be done; the text itself is still on the page.
  }
}
