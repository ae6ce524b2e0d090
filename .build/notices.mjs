// Whose work is inside the bundle, and under which licence: the licences ask
// that their text goes along. Written beside the program by the build.
import {readdirSync, readFileSync} from 'node:fs';
import path from 'node:path';

/** Licences that let their text go along and ask nothing else of a program that holds them. */
const allowed = new Set(['MIT', 'ISC', 'BSD-2-Clause', 'BSD-3-Clause', '0BSD', 'Apache-2.0', 'MIT-0', 'BlueOak-1.0.0']);

/**
 * @param {readonly string[]} inputs Files that went into the bundle, as esbuild names them.
 * @returns {string} The notices, packages by name.
 * @throws {Error} If a package has no licence, or one that was not thought about.
 */
export function noticesFor(inputs) {
	const folders = new Set(inputs.flatMap(file => /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(file)?.[1] ?? []));
	const packages = [...folders].map(folder => {
		const {name, version, license} = JSON.parse(readFileSync(path.join(folder, 'package.json'), 'utf8'));
		if (!allowed.has(license)) throw new Error(`${name} ${version}: licence ${license} is not among those allowed`);
		return {name, version, license, text: licenceText(folder)};
	});
	// Some lie in several places.
	const parts = new Set(
		packages
			.toSorted((a, b) => (a.name < b.name ? -1 : 1))
			.map(({name, version, license, text}) => `${name} ${version} (${license})\n\n${text}`),
	);
	return ['evenfloat holds parts of these packages.\n', ...parts].join(`\n${'-'.repeat(72)}\n\n`);
}

function licenceText(folder) {
	const file = readdirSync(folder).find(name => /^(licen[cs]e|copying)(\.(md|txt))?$/i.test(name));
	if (file) return `${readFileSync(path.join(folder, file), 'utf8').trim()}\n`;
	const {author, contributors, repository} = JSON.parse(readFileSync(path.join(folder, 'package.json'), 'utf8'));
	const people = [author, ...(contributors ?? [])].map(each => each?.name ?? each).filter(Boolean);
	const from = typeof repository === 'string' ? repository : repository?.url;
	return `No licence file in the package. By ${people.join(', ') || 'its authors'}; ${from ?? 'see the package'}.\n`;
}
