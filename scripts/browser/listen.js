// Put in front of a page where the browser's driver tells nothing: records what
// the page complains about and asks for. rosesaltRecord hands over what is new.
{
	const said = [], asked = new Set();
	let told = 0;
	Object.defineProperty(window, "rosesaltRecord", {
		value: () => {
			const list = [...asked].slice(told);
			told = asked.size;
			return { Said: said.splice(0), Asked: list };
		},
	});
	for (const level of ["error", "warn", "assert"]) {
		const real = console[level];
		console[level] = function (...args) {
			if (level !== "assert" || !args[0]) said.push("console " + level + ": " + args.map(String).join(" "));
			return real.apply(this, args);
		};
	}
	const ask = (address) => asked.add(new URL(address, document.baseURI).href);
	addEventListener("error", (e) => {
		const address = e.target.src ?? e.target.href;
		if (!address && e.target !== window) return; // a style that was refused, of which the policy tells
		if (address) ask(address);
		said.push("exception: " + (e.message ?? "did not load " + address));
	}, true);
	addEventListener("unhandledrejection", (e) => said.push("exception: " + e.reason));
	addEventListener("securitypolicyviolation", (e) => {
		if (e.blockedURI.includes(":")) ask(e.blockedURI);
		said.push("policy: refused " + e.blockedURI + " by " + e.effectiveDirective);
	});
	// What failed is not among the resources.
	const fetched = window.fetch;
	window.fetch = function (what, ...rest) {
		ask(what.url ?? what);
		return fetched.call(this, what, ...rest);
	};
	const open = XMLHttpRequest.prototype.open;
	XMLHttpRequest.prototype.open = function (method, address, ...rest) {
		ask(address);
		return open.call(this, method, address, ...rest);
	};
	new PerformanceObserver((list) => {
		for (const e of list.getEntries()) ask(e.name);
	}).observe({ type: "resource", buffered: true });
}
