#!/usr/bin/env bash
# No SQL is made from text: every statement is written in the program. Looks through src for
#   - a function that puts texts together (printf and friends, strcat, text_add) with a word of SQL in
#     what it writes and a %s, or no format at all;
#   - SQLite called from another file than those that know every text they hand over, or a statement
#     bound outside query.c, where every result is checked;
#   - extensions.
# Planted faults come first: a gate that finds none of them fails.
set -euo pipefail
cd "$(dirname "$0")/.."
python3 - <<'END'
import glob, re, sys

SQL = r'\b(SELECT|INSERT|UPDATE|DELETE|REPLACE|PRAGMA|ATTACH|CREATE|DROP|ALTER|VACUUM)\b\s+[A-Za-z*%]'
MAKES = r'\b(\w*printf|connection_say|strcat|strncat|strcpy|memcpy|text_add\w*|asprintf|fputs|fwrite)\s*\('
RUN = r'\bsqlite3_(exec|prepare\w*|get_table)\s*\('
RUNS = {  # file: what it may hand over besides a literal
    'src/store/query.c': ['statement_sql(statement)'],
    'src/store/settings.c': ['pragma->set', 'pragma->ask'],
    'src/store/migrate.c': ['migration->sql', 'sql'],
    'src/store/backup.c': [],
    'src/store/practice.c': [],
    'src/store/schema_check.c': ['OBJECTS', 'schema_migrations[i].sql'],
}

def arguments(text, start):
    depth, quoted, at, parts = 0, False, start, ['']
    while at < len(text):
        c = text[at]
        if quoted:
            quoted = c != '"' or text[at - 1] == '\\'
        elif c == '"':
            quoted = True
        elif c in '([{':
            depth += 1
        elif c in ')]}':
            if depth == 0:
                break
            depth -= 1
        elif c == ',' and depth == 0:
            parts.append('')
            at += 1
            continue
        parts[-1] += c
        at += 1
    return [' '.join(part.split()) for part in parts]

def faults(name, text):
    text = re.sub(r'//[^\n]*', '', text)
    for call in re.finditer(MAKES, text):
        given = arguments(text, call.end())
        words = ' '.join(re.findall(r'"((?:[^"\\]|\\.)*)"', ' '.join(given)))
        numbers = '%s' not in words and '%' in words and call.group(1).endswith('printf')
        if re.search(SQL, words) and not numbers:
            yield f'{name}: SQL made from text: {call.group(1)}({", ".join(given)})'
    for call in re.finditer(RUN, text):
        given = arguments(text, call.end())
        if name not in RUNS or not (given[1].startswith('"') or given[1] in RUNS[name]):
            yield f'{name}: a statement from who knows where: {call.group(0)}{", ".join(given)})'
    for call in re.finditer(r'\bsqlite3_(bind_(?!parameter)\w+|\w*load_extension|enable_load\w*|create_function\w*)\s*\(', text):
        line = text[text.rfind('\n', 0, call.start()) + 1:text.find('\n', call.start())]
        before = text[max(0, call.start() - 40):call.start()]
        if name != 'src/store/query.c' or not re.search(r'bound\(query,\s*$', before):
            yield f'{name}: not checked, or not wanted: {line.strip()}'

planted = [
    ('src/store/people.c', 'snprintf(sql, sizeof sql, "SELECT name FROM worker WHERE badge = \'%s\'", badge);'),
    ('src/store/people.c', 'strcat(sql, "DELETE FROM worker");'),
    ('src/store/log_csv.c', 'text_add(&text, "SELECT seq FROM log WHERE ");'),
    ('src/command/run.c', 'sqlite3_exec(db, "SELECT 1", NULL, NULL, NULL);'),
    ('src/store/query.c', 'sqlite3_prepare_v2(db, words, -1, &statement, NULL);'),
    ('src/store/query.c', 'sqlite3_bind_text(query->statement, 1, text, -1, SQLITE_STATIC);'),
    ('src/store/pin.c', 'bound(query, sqlite3_bind_int(statement, 1, 7));'),
    ('src/store/settings.c', 'sqlite3_enable_load_extension(db, 1);'),
]
for name, text in planted:
    if not list(faults(name, f'void f(void) {{\n    {text}\n}}\n')):
        sys.exit(f'sql: the gate lets this through: {name}: {text}')
files = sorted(glob.glob('src/**/*.c', recursive=True) + glob.glob('src/**/*.h', recursive=True))
found = [fault for name in files for fault in faults(name, open(name, encoding='utf-8').read())]
if found or len(files) < 300:
    sys.exit('\n'.join(found) or 'sql: where is the source?')
print(f'{len(files)} files, no SQL made from text; {len(planted)} planted faults found')
END
