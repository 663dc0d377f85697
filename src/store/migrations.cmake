# cmake -DSQL=<folder> -DOUT=<file.c> -P migrations.cmake: compiles db/NNNN_name.sql in, as bytes.
file(GLOB scripts ${SQL}/[0-9][0-9][0-9][0-9]_*.sql)
list(SORT scripts)
set(texts "")
set(rows "")
foreach(script ${scripts})
  get_filename_component(name ${script} NAME_WE)
  string(SUBSTRING ${name} 0 4 digits)
  math(EXPR number "1${digits} - 10000")
  file(READ ${script} bytes HEX)
  string(REGEX REPLACE "(..)" "0x\\1," bytes "${bytes}")
  string(APPEND texts "static const char sql_${number}[] = {${bytes}0};\n")
  string(APPEND rows "    {${number}, \"${name}\", sql_${number}},\n")
endforeach()
file(WRITE ${OUT} "#include \"schema.h\"\n\n${texts}
const struct migration schema_migrations[] = {\n${rows}};
const size_t schema_migration_count = sizeof schema_migrations / sizeof schema_migrations[0];\n")
