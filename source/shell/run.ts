import {Readable} from 'node:stream';
import {exitCodes, type Manner, type Wish} from '../command-line.ts';
import {asciiStream} from '../terminal/ascii-stream.ts';
import {asciiGlyphs} from '../terminal/glyphs.ts';
import {lookFor} from '../terminal/look.tsx';
import {toAscii} from '../units/ascii.ts';
import {keysBeside} from './ears/keys-beside.ts';
import {runFullScreen} from './full-screen.tsx';
import {onHangUp} from './life.ts';
import {openOpening} from './opening.ts';
import {runPlain} from './plain.ts';
import type {Ports} from './ports.ts';
import type {Ending, Left, Wizard} from './state.ts';
import {openSetup, startSetup} from './wizard.ts';

/** Runs the wizard on this process's own streams. */
export async function runWizard(
	wish: Extract<Wish, {kind: 'start' | 'open' | 'practice'}>,
	manner: Manner,
	ports: Ports,
): Promise<number> {
	const {stdout, stderr, env} = process;
	const isSoundPiped = manner.hear?.kind === 'piped';
	const stdin = isSoundPiped ? keysBeside() : process.stdin;
	const first = firstScreen(wish, ports);
	if (typeof first === 'string') {
		stderr.write(`${first}\n`);
		return exitCodes.problem;
	}

	const environment = manner.noColor ? {...env, NO_COLOR: '1'} : env;
	const look = lookFor(environment, stdout.isTTY ? stdout.getColorDepth(environment) : 1, manner.ascii);
	const isAscii = look.glyphs === asciiGlyphs;
	const shown = (text: string) => `${isAscii ? toAscii(text) : text}\n`;
	const farewell = ({said}: Left) => {
		for (const text of said) stdout.write(shown(text));
	};
	const onSignal = (left: Left, exitCode: number): void => {
		farewell(left);
		process.exit(exitCode);
	};
	if (manner.plain) {
		const ending = await runPlain(first, {
			ports,
			input: stdin ?? Readable.from([]),
			say: text => stdout.write(shown(text)),
			untilHangUp: leaveNow => onHangUp(stdout, code => onSignal(leaveNow(), code)),
		});
		if (isSoundPiped) stdin?.destroy();
		return ended(ending);
	}

	if (!stdin?.isTTY || !stdout.isTTY) {
		const which = stdin?.isTTY ? 'The output' : 'The input';
		stderr.write(
			`${which} is not a terminal, which the full screen needs. Use evenfloat --plain to work line by line.\n`,
		);
		return exitCodes.problem;
	}

	const ending = await runFullScreen(first, {
		ports,
		look,
		stdin,
		stdout: isAscii ? asciiStream(stdout) : stdout,
		onSignal,
	});
	if (isSoundPiped) stdin.destroy();
	return ended(ending);

	/** Says where everything is, and what went wrong if something did. */
	function ended(ending: Ending): number {
		if (ending.kind === 'left' && ending.inputEnded) stdout.write(shown('The input ended here.'));
		farewell(ending.left);
		switch (ending.kind) {
			case 'left':
				// A script has to see that its answers did not suffice.
				return ending.inputEnded && ending.left.isFinished === false ? exitCodes.problem : exitCodes.done;
			case 'fault':
				stderr.write(shown(`evenfloat had to stop because of a fault of its own: ${ending.error.message}`));
				if (env.EVENFLOAT_TRACE) stderr.write(`${ending.error.stack ?? ''}\n`);
				return exitCodes.problem;
		}
	}
}

/** Where to begin, or a sentence saying why that cannot be. */
function firstScreen(wish: Extract<Wish, {kind: 'start' | 'open' | 'practice'}>, ports: Ports): Wizard | string {
	switch (wish.kind) {
		case 'start':
			return openOpening(ports);
		case 'practice':
			return startSetup(ports, wish.seed ?? ports.seed());
		case 'open': {
			const id = wish.id ?? ports.store.lastUnfinished()?.id;
			if (id === undefined) return `No unfinished set-up is kept in ${ports.store.folder}. Start one with: evenfloat`;
			const opened = openSetup(openOpening(ports), id, 'claim', ports);
			const isMissing = opened.screen === 'opening' && opened.asking === undefined;
			return isMissing
				? `${opened.message?.text ?? `There is no set-up ${id}.`} evenfloat list shows what is kept.`
				: opened;
		}
	}
}
