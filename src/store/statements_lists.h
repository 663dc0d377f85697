#ifndef STATEMENTS_LISTS_H
#define STATEMENTS_LISTS_H

// Lists of what the shop has.

// clang-format off
#define LISTS_STATEMENTS(X)                                                                        \
    X(LIST_HEADS,                                                                                  \
      "SELECT h.ticket, h.model, '', h.weight, h.bore_height, '', 'raw', c.build, c.name "         \
      "FROM head AS h LEFT JOIN club AS c ON c.id = h.club WHERE h.ticket > ? "                    \
      "AND instr(upper(h.ticket || ' ' || h.model), upper(?)) > 0 ORDER BY h.ticket LIMIT ?")      \
    X(LIST_SHAFTS,                                                                                 \
      "SELECT s.ticket, s.model, s.flex, s.weight, "                                               \
      "CASE WHEN s.life = 'raw' THEN s.raw_length ELSE s.remaining END, s.rack, s.life, c.build, " \
      "c.name FROM shaft AS s LEFT JOIN club AS c ON c.id = s.club WHERE s.ticket > ? "            \
      "AND instr(upper(s.ticket || ' ' || s.model || ' ' || s.flex), upper(?)) > 0 "               \
      "ORDER BY s.ticket LIMIT ?")                                                                 \
    X(LIST_HEAD_MODELS,                                                                            \
      "SELECT model, kind, engraved, weight, hosel_bore, revision FROM head_model_revision AS r "  \
      "WHERE model > ? AND instr(upper(model), upper(?)) > 0 AND revision = "                      \
      "(SELECT max(revision) FROM head_model_revision WHERE model = r.model) "                     \
      "ORDER BY model LIMIT ?")                                                                    \
    X(LIST_SHAFT_MODELS,                                                                           \
      "SELECT model, material, tip, weight, tip_diameter, revision FROM shaft_model_revision "     \
      "AS r WHERE model > ? AND instr(upper(model), upper(?)) > 0 AND revision = "                 \
      "(SELECT max(revision) FROM shaft_model_revision WHERE model = r.model) "                    \
      "ORDER BY model LIMIT ?")                                                                    \
    X(LIST_CHARTS,                                                                                 \
      "SELECT model, flex, kind, revision, "                                                       \
      "(SELECT count(*) FROM chart_column WHERE chart = c.id) FROM chart AS c "                    \
      "WHERE (model, flex, kind) > (?, ?, ?) "                                                     \
      "AND instr(upper(model || ' ' || flex || ' ' || kind), upper(?)) > 0 AND revision = "        \
      "(SELECT max(revision) FROM chart WHERE model = c.model AND flex = c.flex "                  \
      "AND kind = c.kind) ORDER BY model, flex, kind LIMIT ?")                                     \
    X(LIST_CHART_COLUMNS,                                                                          \
      "SELECT l.weight, l.name, l.tip_trim FROM chart AS c LEFT JOIN chart_column AS l "           \
      "ON l.chart = c.id WHERE c.model = ? AND c.flex = ? AND c.kind = ? AND c.revision = ? "      \
      "ORDER BY l.weight")                                                                         \
    X(LIST_FLEXES,                                                                                 \
      "SELECT flex FROM chart WHERE model = ? UNION SELECT flex FROM shaft_profile "               \
      "WHERE model = ? UNION SELECT flex FROM shaft WHERE model = ? ORDER BY 1 LIMIT ?")
// clang-format on

#endif
