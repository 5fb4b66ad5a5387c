// Wasm is the program inside the page: it mounts package web's root component
// in the browser.
//
// Beside it lie the parts that carry it, which scripts/onefile puts together
// into one HTML file:
//
//   - shell.html, the page around everything, with its content policy;
//   - early.js, which tells from the address whether another plan is opened
//     than the one that the file begins with;
//   - shell.css, the look of the words before the program stands, or when it
//     cannot, and demo.css, that of the plan that the file begins with;
//   - loader.js, which unpacks and starts the program, says so in plain words
//     when that fails, and keeps the address out of the component library's
//     hands.
package main
