import {readdirSync, readFileSync} from 'node:fs';
import path from 'node:path';
import {describe, expect, test} from 'vitest';

const source = path.resolve(import.meta.dirname, '../../source');

/** Each folder of source/ and the folders it may lean on. DEVELOPERS.md explains why. */
const leansOn: Readonly<Record<string, readonly string[]>> = {
	numeric: [],
	units: ['numeric'],
	music: ['numeric'],
	physics: ['numeric', 'music'],
	practice: ['numeric', 'music', 'physics'],
	listening: ['numeric', 'music'],
	estimation: ['numeric', 'music', 'physics'],
	planning: ['numeric', 'music', 'physics', 'estimation'],
	session: ['numeric', 'units', 'music', 'physics', 'practice', 'estimation', 'planning'],
	storage: ['numeric', 'music', 'estimation', 'session'],
	terminal: ['numeric', 'units'],
	stages: ['numeric', 'units', 'music', 'session', 'terminal', 'planning'],
	shell: [
		'numeric',
		'units',
		'music',
		'estimation',
		'planning',
		'session',
		'storage',
		'terminal',
		'stages',
		'listening',
		'.',
	],
	// main.tsx, launch.ts, command-line.ts
	'.': ['units', 'music', 'session', 'storage', 'terminal', 'stages', 'shell'],
};

const files = readdirSync(source, {recursive: true, encoding: 'utf8'}).filter(name => /\.tsx?$/.test(name));

function importsOf(file: string): readonly string[] {
	const text = readFileSync(path.join(source, file), 'utf8');
	return [...text.matchAll(/(?:from|import)\s*\(?\s*'([^']+)'/g)].map(match => match[1]!);
}

const folderOf = (file: string): string => (file.includes(path.sep) ? file.split(path.sep)[0]! : '.');

describe('imports run one way', () => {
	test.each(files)('%s', file => {
		const folder = folderOf(file);
		const allowed = leansOn[folder];
		expect(allowed, `folder ${folder} is in the table`).toBeDefined();
		for (const name of importsOf(file)) {
			// package.json tells the version; it is no folder of ours.
			if (!name.startsWith('.') || name.endsWith('package.json')) continue;
			const target = folderOf(path.relative(source, path.resolve(source, path.dirname(file), name)));
			if (target !== folder) expect(allowed, `${file} leans on ${target}`).toContain(target);
		}
	});
});

describe('effects live at the edge', () => {
	const edge =
		/^(terminal|shell|storage|main\.tsx|launch\.ts|listening\/sources)|^stages\/.*\.tsx$|^stages\/stage\.ts$/;
	test.each(files.filter(file => !edge.test(file)))('%s knows no screen, file or clock', file => {
		const effects = importsOf(file).filter(name => /^(react|ink|conf)($|[-/])|^node:(?!util$)/.test(name));
		expect(effects).toEqual([]);
		const text = readFileSync(path.join(source, file), 'utf8');
		expect(text).not.toMatch(/Math\.random\(|Date\.now\(|new Date\(\)/);
	});
});

test('stages do not import each other', () => {
	for (const file of files.filter(name => name.startsWith(`stages${path.sep}`))) {
		const stage = file.split(path.sep)[1]!;
		if (stage.endsWith('.ts') || stage.endsWith('.tsx')) continue;
		for (const name of importsOf(file)) {
			if (!name.startsWith('.')) continue;
			const target = path.relative(source, path.resolve(source, path.dirname(file), name)).split(path.sep);
			if (target[0] === 'stages' && target.length > 2)
				expect([stage, 'common'], `${file} → ${name}`).toContain(target[1]);
		}
	}
});
