// Package draws makes the draws that a desk's intervals, suggestions, sweeps, wishes and
// account rest on, and hides where: in a worker, which is the same program once more beside
// the page, or, where the browser allows none, a few at a time on the page's own thread.
// Both give the same to the last bit.
//
// A page has one Maker for its desk. It begins anew after each change, drops what is older,
// and tells the page as soon as a part stands on the desk.
//
// # The worker
//
// The loader (wasm/loader.js) makes the worker, once; main calls Serve, which finds itself
// without a document. The page sends errands (desk.Errand) as text, the worker answers with
// desk.Results as bytes. Between two steps it looks for a newer errand, which drops the one
// at hand. A browser may refuse a worker by an exception, by an event, or by silence: each
// of them leaves the work to the page, silence only until the worker speaks.
package draws
