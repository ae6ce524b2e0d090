import {mkdirSync, writeFileSync} from 'node:fs';
import path from 'node:path';
import {pictureSvg} from './picture.ts';
import {printed} from './print.ts';
import {stories} from './stories/index.ts';

/**
 * `npm run demo` lists the stories and plays the first, `npm run demo NAME`
 * plays one, `npm run demo -- --update` writes what every story prints, and
 * the picture of a screen, to `demo/expected/`, for the tests to compare with.
 */
const [given] = process.argv.slice(2);

if (given === '--update') update();
else if (given === undefined) {
	list();
	console.log();
	show(stories[0]!.name);
} else show(given);

function list(): void {
	console.log('Stories, each played through the real session: npm run demo NAME');
	for (const {name, title} of stories) console.log(`  ${name.padEnd(26)}${title}`);
}

function show(name: string): void {
	const story = stories.find(story => story.name === name);
	if (story) {
		for (const line of printed(story)) console.log(line);
		return;
	}

	console.error(`Read “${name}”: no story of that name. For example ${stories[0]!.name}.`);
	list();
	process.exitCode = 1;
}

function update(): void {
	mkdirSync('demo/expected', {recursive: true});
	for (const story of stories) {
		const file = path.join('demo/expected', `${story.name}.txt`);
		writeFileSync(file, `${printed(story).join('\n')}\n`);
		console.log(`written: ${file}`);
	}
	const picture = 'demo/expected/screen.svg';
	writeFileSync(picture, pictureSvg());
	console.log(`written: ${picture}`);
}
