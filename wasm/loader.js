"use strict";

// Starts the program that lies, packed, at the end of this file, and keeps the
// component library's habits with addresses away from the plan.
(() => {
	const root = document.documentElement;

	// Which tabs live the browser tells late; asked now, it is known when the page first stands.
	navigator.locks?.query().then((all) => { window.rosesaltTabs = all.held; }, () => {});

	// The library asks for its settings through this one function. It reads
	// an undefined answer as an empty one; nothing here needs a setting.
	window.goappGetenv = () => undefined;

	// fail says in the page what happened. The cautions already stand in the
	// shell; marking the document shows them.
	const fail = (word, why) => {
		root.dataset.failed = word;
		const set = (id, text) => {
			const el = document.getElementById(id);
			if (el) el.textContent = text;
		};
		set("start-word", "Rosesalt could not start.");
		set("start-why", why);
	};

	// stopped is for a program that ended after it stood: its last figures
	// are still on the page and would be taken for live ones.
	const stopped = () => {
		root.dataset.failed = "stopped";
		if (document.getElementById("start")) {
			fail("stopped", "The program stopped while starting. Open the file without the part after “#”; if that helps, the link was damaged.");
			return;
		}
		const note = document.createElement("p");
		note.id = "stopped";
		note.setAttribute("role", "alert");
		note.textContent = "Stop: the page has stopped working and its figures no longer follow what you type. Reload it.";
		document.body.prepend(note);
	};

	// Addresses. A fragment with a stray percent sign ("#50%") cannot be
	// parsed by Go's net/url, and the library would end the program over it:
	// write the sign out before anyone looks.
	const stray = /%(?![0-9a-fA-F]{2})/;
	// A link that is far too long to be a plan is told as such from its beginning; all
	// of it would keep the browser busy, or be more than it writes back.
	const most = 200000;
	const mend = () => {
		const hash = location.hash.slice(0, most).replace(new RegExp(stray, "g"), "%25");
		if (hash !== location.hash) history.replaceState(history.state, "", hash);
	};
	// The library answers popstate by comparing with the last address it has
	// written itself, and misses what the program wrote. It never gets to
	// see one; the program listens to hashchange.
	window.addEventListener("popstate", (e) => {
		e.stopImmediatePropagation();
		mend();
		window.dispatchEvent(new Event("travelled"));
	}, true);
	// hashchange may carry an address that no popstate announced.
	window.addEventListener("hashchange", mend, true);

	// stays is what e lies in, or is, that stays in view while the rest is scrolled.
	const stays = (e) => {
		while (e && !/^(sticky|fixed)$/.test(getComputedStyle(e).position)) e = e.parentElement;
		return e;
	};

	// Not every browser brings what the Tab key reaches into view while a hair of it shows,
	// or while it lies under what stays in view (Firefox does not). What stays in view
	// itself is only scrolled within.
	const bring = (e) => {
		if (e !== document.activeElement) return;
		const at = stays(e);
		if (at) {
			const room = at.getBoundingClientRect(), box = e.getBoundingClientRect();
			at.scrollTop += Math.min(box.top - room.top, Math.max(0, box.bottom - room.bottom));
			return;
		}
		// At once: WebKit's own reveal breaks off what glides.
		e.scrollIntoView({ block: "nearest", inline: "nearest", behavior: "instant" });
	};
	let tabbed = false;
	window.addEventListener("keydown", (e) => { tabbed = e.key === "Tab"; }, true);
	window.addEventListener("pointerdown", () => { tabbed = false; }, true);
	window.addEventListener("focusin", (e) => {
		if (!tabbed || !(e.target instanceof Element)) return;
		bring(e.target);
		// Firefox scrolls after that, and less far.
		requestAnimationFrame(() => bring(e.target));
	});

	// What is looked at stays where it is when something comes or grows above it, as the
	// intervals do seconds after the page stands: what has the focus, else the first thing
	// that begins below the strip. WebKit does not see to that, and the others (whose own
	// way the styles switch off) hold on to what lies under the strip.
	let held = null;
	const below = (within, line) => {
		for (const e of within.children) {
			const box = e.getBoundingClientRect();
			if (!box.height || box.bottom <= line || !(e instanceof HTMLElement)) continue;
			// What hangs or stays says nothing of where the rest is.
			if (/^(absolute|sticky|fixed)$/.test(getComputedStyle(e).position)) continue;
			const found = box.top >= line ? e : below(e, line);
			if (found) return found;
		}
		return null;
	};
	const hold = () => {
		// A place that was scrolled to lies on the line, or a part of a pixel above it.
		const line = (parseFloat(getComputedStyle(root).scrollPaddingTop) || 0) - 1;
		let e = document.activeElement;
		const { top, height } = e?.getBoundingClientRect() ?? {};
		if (!(height && top >= line && top < innerHeight && e.matches(":focus-visible") && !stays(e))) e = below(document.body, line);
		held = e && { e, is: e.className, top: e.getBoundingClientRect().top, y: scrollY };
	};
	// At the page's start, where the strip does not stick yet, what comes is to be seen.
	const begins = () => scrollY <= 0 || document.querySelector(".strip")?.getBoundingClientRect().top > 0;
	// This is asked after the layout, and after a page that is being scrolled has said so.
	new ResizeObserver(() => {
		// The library may have made another thing of the element.
		if (held && scrollY === held.y && held.e.className === held.is && !begins()) {
			const { top, height } = held.e.getBoundingClientRect(); // none once it is gone
			if (height && Math.abs(top - held.top) >= 1) scrollBy({ top: top - held.top, behavior: "instant" });
		}
		hold();
	}).observe(document.body);
	window.addEventListener("scroll", () => { if (scrollY !== held?.y) hold(); }, { passive: true });
	window.addEventListener("focusin", hold);

	// The library turns every click on a link into a navigation of its own.
	// Links within the page go to their place without touching the address,
	// which holds the plan; other links are left to the browser.
	window.addEventListener("click", (e) => {
		const link = e.target instanceof Element && e.target.closest("a[href]");
		if (!link) return;
		e.stopImmediatePropagation();
		const href = link.getAttribute("href");
		const plain = e.button === 0 && !(e.ctrlKey || e.metaKey || e.shiftKey || e.altKey);
		if (e.defaultPrevented || !plain || !href.startsWith("#")) return;
		e.preventDefault();
		const place = document.getElementById(href.slice(1));
		if (!place) return;
		place.scrollIntoView();
		// So that the next Tab goes on from there.
		if (place.tabIndex < 0 && !place.hasAttribute("tabindex")) place.tabIndex = -1;
		place.focus({ preventScroll: true });
	});

	// A browser that keeps no site data throws when storage is only named,
	// which would end the program: lend it a store that lives as long as the
	// page, and says so by its mark.
	const lend = (name) => {
		try {
			window[name].getItem("");
			return;
		} catch {}
		const kept = new Map();
		const store = {
			lent: true, // nothing here outlives the page
			get length() { return kept.size; },
			key: (i) => [...kept.keys()][i] ?? null,
			getItem: (k) => kept.get(String(k)) ?? null,
			setItem: (k, v) => { kept.set(String(k), String(v)); },
			removeItem: (k) => { kept.delete(String(k)); },
			clear: () => kept.clear(),
		};
		Object.defineProperty(window, name, { value: store, configurable: true });
	};

	// A saved copy is this file again: what stands before the program, as it was
	// before anything was drawn, then what is saved, then the program. The
	// parser has not come to the program yet, so this is short. It holds another plan than the
	// one that the file begins with.
	const other = "other" in root.dataset;
	root.dataset.other = "";
	const shell = root.outerHTML;
	if (!other) delete root.dataset.other;
	// Where the plan of the file is not shown, what the start says is all there is.
	else document.querySelector("div#start")?.setAttribute("role", "main");
	const end = (tag) => "<" + "/" + tag + ">\n"; // written out, it would end this element
	window.rosesaltCopy = (saved) => {
		const program = document.getElementById("program");
		return new Blob([
			"<!doctype html>\n", shell.slice(0, shell.lastIndexOf(end("body").trim())).trimEnd(), "\n",
			"<" + "script type=\"application/json\" id=\"saved\">", saved, end("script"),
			program.outerHTML, "\n", end("body"), end("html"),
		], { type: "text/html" });
	};

	// The program once more, in a worker, makes the draws that intervals rest on (package
	// draws). Its address is all that the one policy for scripts lets through, and it is made
	// once.
	const runtime = document.currentScript.previousElementSibling;
	let compiled = null; // the program's module
	let own = "";
	const scripts = window.trustedTypes?.createPolicy("rosesalt", {
		createScriptURL: (address) => {
			if (!own || address !== own) throw new TypeError("no script comes from " + address);
			return address;
		},
	});
	const aside = `
		onmessage = ({ data }) => {
			onmessage = null;
			const go = new Go(), ended = () => postMessage("ended");
			WebAssembly.instantiate(data, go.importObject).then((program) => go.run(program)).then(ended, ended);
		};`;
	window.rosesaltWorker = () => {
		delete window.rosesaltWorker;
		own = URL.createObjectURL(new Blob([runtime.textContent, aside], { type: "text/javascript" }));
		try {
			const worker = new Worker(scripts ? scripts.createScriptURL(own) : own);
			worker.postMessage(compiled);
			return worker;
		} finally {
			own = "";
		}
	};

	const bytes = (text) => {
		if (Uint8Array.fromBase64) return Uint8Array.fromBase64(text);
		const raw = atob(text);
		const out = new Uint8Array(raw.length);
		for (let i = 0; i < raw.length; i++) out[i] = raw.charCodeAt(i);
		return out;
	};

	const unpacked = (packed) => new Response(
		new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip")),
		{ headers: { "Content-Type": "application/wasm" } },
	);

	// Streaming compiles while it unpacks. A browser without it, or one that
	// refuses a response made by hand, gets the whole module at once.
	const instance = async (packed, imports) => {
		let program;
		if (WebAssembly.instantiateStreaming) {
			try {
				program = await WebAssembly.instantiateStreaming(unpacked(packed), imports);
			} catch {}
		}
		program ??= await WebAssembly.instantiate(await unpacked(packed).arrayBuffer(), imports);
		compiled = program.module;
		return program.instance;
	};

	const start = async () => {
		const part = document.getElementById("program");
		const text = part?.content?.textContent;
		if (!text || text.length !== Number(part.dataset.length)) {
			fail("cut", "The file is incomplete: it was cut short on its way here. Get it again.");
			return;
		}
		if (typeof WebAssembly !== "object" || typeof DecompressionStream !== "function") {
			fail("refused", "This browser has no WebAssembly, or has it switched off, or is too old for this page. Open the file in a current browser, or switch off its strict protection for this file.");
			return;
		}
		if (stray.test(location.pathname)) {
			fail("name", "The file lies under a name with a percent sign. Rename the file or its folder and open it again.");
			return;
		}
		if (typeof Go !== "function") { // the policy runs no script that was changed
			fail("damaged", "The file is damaged: a part of it was changed on its way here. Get it again.");
			return;
		}
		mend();
		lend("localStorage");
		lend("sessionStorage");

		const go = new Go();
		let program;
		try {
			program = await instance(bytes(text), go.importObject);
		} catch (e) {
			fail("refused", "The program could not be unpacked: the file is damaged, or this browser refuses WebAssembly. Get the file again, or open it in a current browser. (" + e + ")");
			return;
		}
		go.run(program).then(stopped, stopped);
	};

	// The program lies behind this script; a file cut short anywhere behind
	// here still ends in this event.
	document.addEventListener("DOMContentLoaded", start);
})();
