// Wasm is the program inside the page: it mounts package web's root component
// in the browser.
//
// Beside it lie the parts that carry it, which scripts/onefile puts together
// into one HTML file:
//
//   - shell.html, the page around everything, with its content policy;
//   - shell.css, the look of the page before the program stands, or when it
//     cannot;
//   - loader.js, which unpacks and starts the program, says so in plain words
//     when that fails, and keeps the address out of the component library's
//     hands.
package main
