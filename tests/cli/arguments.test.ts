/** The words of the command line, as its contract says. */
import { describe, expect, it } from 'vitest';
import { readArguments } from '../../server/cli/arguments';

describe('arguments', () => {
  it('takes options anywhere', () => {
    const one = readArguments(['check', '--format', 'json', 'a.cage', '--fail-on=warning', 'b.cage']);
    const two = readArguments(['--fail-on', 'warning', 'check', 'a.cage', 'b.cage', '--format=json']);
    expect(one).toEqual(two);
    expect(one).toMatchObject({ command: 'check', words: ['a.cage', 'b.cage'], format: 'json', failOn: 'warning' });
  });

  it('has defaults', () => {
    expect(readArguments(['check', 'a'])).toMatchObject({ format: 'text', failOn: 'error', root: null, name: null });
    expect(readArguments(['describe', 'a'])).toMatchObject({ format: 'text' });
    expect(readArguments(['format', '--check', 'a'])).toMatchObject({ check: true });
    expect(readArguments(['lsp', '--stdio'])).toMatchObject({ command: 'lsp', stdio: true });
  });

  it('reads a lone - as a file, and everything after -- as files', () => {
    expect(readArguments(['check', '-', '--name', 'x.cage'])).toMatchObject({ words: ['-'], name: 'x.cage' });
    expect(readArguments(['check', '--', '--odd.cage'])).toMatchObject({ words: ['--odd.cage'] });
  });

  it('answers help and version everywhere', () => {
    expect(readArguments(['--help'])).toMatchObject({ command: 'help', words: [] });
    expect(readArguments(['help', 'chek'])).toBe("there is no command 'chek'; did you mean 'check'");
    expect(readArguments(['x.cage', '-h'])).toMatchObject({ command: 'help' });
    expect(readArguments(['check', '-h'])).toMatchObject({ command: 'help', words: ['check'] });
    expect(readArguments(['--version'])).toMatchObject({ command: 'version' });
  });

  it.each([
    [[], 'say what to do'],
    [['chek', 'a'], "did you mean 'check'"],
    [['diff', 'a'], "'diff' is not part of this version"],
    [['packet', 'a', '--date', 'x'], 'packet has no option --date'],
    [['diff', 'a', 'b'], "'diff' is not part of this version"],
    [['check', 'a', '--formt', 'json'], 'did you mean --format'],
    [['check', 'a', '-x'], 'there is no option -x'],
    [['check', 'a', '--format', 'xml'], 'text, json, sarif, github'],
    [['describe', 'a', '--format', 'sarif'], 'text, json'],
    [['check', 'a', '--format'], '--format wants a value'],
    [['check', 'a', '--fail-on', 'fatal'], 'error, warning, information'],
    [['describe', 'a', '--fail-on', 'error'], 'describe has no option --fail-on'],
    [['check', 'a', '--check'], 'check has no option --check'],
    [['format', 'a', '--check=yes'], '--check takes no value'],
  ])('says in one line what is wrong with %j', (argv, says) => {
    const problem = readArguments(argv);
    expect(problem).toBeTypeOf('string');
    expect(problem).toContain(says);
    expect(problem).not.toContain('\n');
  });
});
