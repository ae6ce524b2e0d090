import {readFileSync} from 'node:fs';
import manifest from '../package.json' with {type: 'json'};
import {exitCodes, helpText, parseCommandLine} from './command-line.ts';
import {isKeeping, runKeeping} from './shell/keeping.ts';
import {realPorts} from './shell/real-ports.ts';
import {runWizard} from './shell/run.ts';
import {openStore} from './storage/store.ts';

/** Arguments, wiring, and the exit code. */
async function main(): Promise<number> {
	const asked = parseCommandLine(process.argv.slice(2));
	if (!asked.ok) {
		console.error(asked.said);
		return asked.exitCode;
	}

	const {wish, manner} = asked;
	if (wish.kind === 'help') process.stdout.write(helpText());
	if (wish.kind === 'version') console.log(manifest.version);
	if (wish.kind === 'help' || wish.kind === 'version') return exitCodes.done;
	const now = () => Date.now();
	const opened = openStore({now, ...(manner.store !== undefined && {folder: manner.store})});
	if (!opened.ok) {
		console.error(opened.said);
		return exitCodes.problem;
	}

	const {store} = opened;
	if (isKeeping(wish)) {
		return runKeeping(wish, {
			store,
			now,
			read: file => readFileSync(file === '-' ? 0 : file, 'utf8'),
			say: text => process.stdout.write(text),
			complain: text => process.stderr.write(text),
		});
	}

	return runWizard(wish, manner, realPorts(store, now, manner.hear));
}

process.exitCode = await main();
