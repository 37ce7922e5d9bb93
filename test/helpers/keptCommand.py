"""Runs a Python program that starts the command line again and again, with `keptProcess.mjs` in place of each start.

    python3 keptCommand.py NODE PROGRAM [ARGUMENT ...] -- COMMAND      (COMMAND: one word that stands for the command line)

The process is spoken to as Node's documentation of NODE_CHANNEL_FD says: a line of JSON for each message.
"""
import json, os, runpy, socket, subprocess, sys

node, program = sys.argv[1:3]
ours, theirs = socket.socketpair()
kept = subprocess.Popen(
    [node, os.path.join(os.path.dirname(os.path.abspath(__file__)), 'keptProcess.mjs')],
    stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, pass_fds=[theirs.fileno()],
    env={**os.environ, 'NODE_CHANNEL_FD': str(theirs.fileno())})
theirs.close()
lines = ours.makefile('rw', encoding='utf-8')


def run(command, env, **_):
    lines.write(json.dumps({'args': command[1:], 'cwd': os.getcwd(), 'input': '', 'env': env}) + '\n')
    lines.flush()
    said = json.loads(lines.readline())
    return subprocess.CompletedProcess(command, said['status'], said['stdout'], said['stderr'])


subprocess.run = run
sys.argv = sys.argv[2:]
try:
    runpy.run_path(program, run_name='__main__')
finally:
    lines.close()
    ours.close()
    kept.wait()
