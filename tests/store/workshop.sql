-- A small invented workshop for the tests of the store. Clubs: 1 = 2041 1, 2 = 2042 4h, 3 = 2042 7,
-- 4 = 2042 8, 5 = 2042 9 (nothing reserved).
INSERT INTO shaft_model (name) VALUES ('Alder 110'), ('Reed 60');
INSERT INTO shaft_model_revision (model, revision, material, tip, tip_diameter, butt_diameter,
    raw_length, weight, tip_section, max_tip_trim, max_butt_trim, bore_note, bore_reference,
    note_kinds, note_not_through) VALUES
    ('Reed 60', 1, 'graphite', 'parallel', 8509000, 15240000, 1168400000, 62000, 152400000,
     50800000, 152400000, 'none', NULL, 0, 0),
    ('Reed 60', 2, 'graphite', 'parallel', 8509000, 15240000, 1168400000, 62500, 152400000,
     76200000, 152400000, 'above_reference', 38100000, 3, 1);
INSERT INTO shaft_model_revision (model, revision, material, tip, tip_diameter, butt_diameter,
    raw_length, weight, tip_section, max_tip_trim, max_butt_trim, bore_note, bore_reference,
    note_kinds, note_not_through, balance, tip_wall, butt_wall) VALUES
    ('Alder 110', 1, 'steel', 'parallel', 9398000, 15240000, 1041400000, 112000, 203200000,
     NULL, NULL, 'none', NULL, 0, 0, 546100000, 457200, 381000);
INSERT INTO shaft_profile (model, flex, revision, from_tip, stiffness) VALUES
    ('Reed 60', 'R', 1, 0, 9000), ('Reed 60', 'R', 1, 1168400000, 60000),
    ('Reed 60', 'R', 2, 508000000, 22500), ('Reed 60', 'R', 2, 0, 10125),
    ('Reed 60', 'R', 2, 1168400000, 61000),
    ('Reed 60', 'S', 3, 0, 12000), ('Reed 60', 'S', 3, 1168400000, 70000);
INSERT INTO chart (id, model, flex, kind, revision) VALUES
    (1, 'Reed 60', 'R', 'wood', 1), (2, 'Reed 60', 'R', 'wood', 2),
    (3, 'Alder 110', 'S', 'iron', 1), (4, 'Reed 60', 'S', 'wood', 7);
INSERT INTO chart_column (chart, name, weight, tip_trim) VALUES
    (1, '1', 200000, 0), (1, '3', 210000, 25400000),
    (2, '5', 220000, 38100000), (2, '3', 210000, 12700000), (2, 'D', 200000, 0),
    (2, '7', 230000, NULL),
    (3, '7', 272000, 63500000), (3, '8', 279000, 76200000),
    (4, '1', 200000, 6350000);
INSERT INTO head_model (name) VALUES ('Heron 3'), ('Plover 4h'), ('Plover 7'), ('Plover 8');
INSERT INTO head_model_revision (model, revision, kind, engraved, weight, hosel_bore, insertion,
    bore_height, bore, loft, lie, cg_beyond, inertia) VALUES
    ('Heron 3', 1, 'driver', '1', 200000, 8509000, 31750000, 38100000, '', 15000, NULL, 1, 2),
    ('Heron 3', 2, 'fairway', '3', 210000, 8509000, 31750000, 38100000, 'short', 15000, 57500,
     -2540000, 2800),
    ('Plover 4h', 1, 'hybrid', '4', 231000, 9398000, 31750000, NULL, '', NULL, NULL, NULL, NULL),
    ('Plover 7', 1, 'iron', '7', 272000, 9398000, 31750000, 25400000, 'blind', NULL, NULL, NULL,
     NULL),
    ('Plover 8', 1, 'iron', '8', 279000, 9398000, 31750000, 25400000, 'blind', NULL, NULL, NULL,
     NULL);
INSERT INTO build (name) VALUES ('2041'), ('2042');
INSERT INTO club (id, build, name, position, due, playing_length, grip_cap, grip_weight,
    swingweight, step, uniform_flex) VALUES
    (1, '2041', '1', 1, '2026-03-09', 1092200000, 6350000, 50000, 'D2', -1, 0),
    (2, '2042', '4h', 1, '2026-03-02', 1003300000, 6350000, NULL, '', 0, 1),
    (3, '2042', '7', 2, '2026-03-02', 939800000, 6350000, NULL, '', 0, 1),
    (4, '2042', '8', 3, '2026-03-02', 927100000, 6350000, NULL, '', 0, 1),
    (5, '2042', '9', 4, '', NULL, NULL, NULL, '', 0, 0);
INSERT INTO head (ticket, model, weight, bore_height, club) VALUES
    ('H-0001A', 'Heron 3', 211500, NULL, 1),
    ('H-00036', 'Plover 4h', 231000, 19050000, 2),
    ('H-00028', 'Plover 7', 272400, 25400000, 3),
    ('H-00044', 'Plover 8', 279100, 25400000, 4),
    ('H-00052', 'Plover 8', NULL, NULL, NULL);
INSERT INTO shaft (ticket, model, flex, raw_length, weight, rack, life, remaining, club) VALUES
    ('S-0001S', 'Reed 60', 'R', 1168400000, 62300, 'A1', 'raw', NULL, 1),
    ('S-0002Q', 'Alder 110', 'S', 1041400000, 112000, 'B1', 'raw', NULL, 2),
    ('S-0003O', 'Alder 110', 'S', 1041400000, 112100, 'B1', 'raw', NULL, 3),
    ('S-0004M', 'Alder 110', 'S', 1041400000, 112200, 'B1', 'raw', NULL, 4),
    ('S-0005K', 'Alder 110', 'S', 1041400000, 112300, 'B2', 'raw', NULL, NULL),
    ('S-0007G', 'Reed 60', 'R', 1168400000, NULL, 'A2', 'raw', NULL, NULL);
UPDATE shaft SET balance = 609600000, raw_frequency = 2455, frequency_mass = 205000
    WHERE ticket = 'S-0001S';
UPDATE club SET wished_model = 'Alder 110', wished_flex = 'S' WHERE id = 5;
INSERT INTO worker (badge, name, role) VALUES
    ('W-1J', 'Ada Quill', 'builder'), ('W-2H', 'Bo Tarn', 'supervisor');
