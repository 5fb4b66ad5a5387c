"use strict";

// Marks the document where it will hold another plan than the one the file was built with: that
// of a link or a saved copy, or what this tab was doing before it was loaded again.
(() => {
	const kept = (name, keys) => {
		try {
			return Object.keys(window[name]).some((key) => keys.test(key));
		} catch {
			return false; // a browser that keeps no site data
		}
	};
	const root = document.documentElement;
	if (location.hash.length > 1 || history.state ||
		kept("localStorage", /^rosesalt\.(last|timer)\./) || kept("sessionStorage", /^rosesalt\.(?!tab$)/)) root.dataset.other = "";
})();
