#!/usr/bin/env node
import * as nodeModule from 'node:module';

// The command itself. Plain syntax and no named import, so that an old Node gets to the sentence.
const oldest = 22;
const major = Number(process.versions.node.split('.')[0]);
if (major < oldest) {
	console.error(
		`evenfloat needs Node ${oldest} or newer; this is Node ${process.versions.node}. Install a newer one and start again.`,
	);
	process.exitCode = 1;
} else {
	// What draws would take --no-color for no bold either; colours are left out by meaning instead.
	if (process.argv.includes('--no-color')) process.env.FORCE_COLOR ??= '1';
	// Nothing here talks to a network. While there is a fetch, the layout engine unpacks itself through it and has Node load all of its network code first.
	Reflect.deleteProperty(globalThis, 'fetch');
	// Compiled once, kept in the system's folder for temporary files: the second start is quicker.
	nodeModule.enableCompileCache?.();
	// Beside this file once built; not a literal, so that it stays a file of its own.
	const program = './main.js';
	import(program);
}
