namespace ServiceRules.Application.Tests.Library.Diagnostics;

/// <summary>What can be wrong with limit sheets and the registers of a site.</summary>
internal static class SheetExamples
{
    private const string Small = "sheets/reel-125-9-510.sheet.json";
    private const string Large = "sheets/reel-180-7-660.sheet.json";
    private const string Metric = "sheets/reel-200-6-760.sheet.json";
    private const string Season = "site-alder-reach/setting-orders/S-2026-season.json";
    private const string Registers = "site-alder-reach/registers.json";

    public static IEnumerable<DiagnosticExample> All =>
        [
            new(
                "SR0002",
                "A sheet, pack, order, procedure, person, lock, machine or gauge is named by its identity: with two of one name it would be chance which one counts.",
                Large,
                "\"id\": \"reel-180-7-660\",",
                "\"id\": \"reel-125-9-510\","
            ),
            new(
                "SR0003",
                "A rule or order for a misspelt kind of unit reaches none.",
                "base/attachments-and-wear.rules.json",
                "\"sheets\": [\"reel-180-7-660\"],",
                "\"sheets\": [\"reel-180-7-606\"],"
            ),
            new(
                "SR0006",
                "A rule for an area that nobody works by holds on no ground.",
                "base/attachments-and-wear.rules.json",
                "\"when\": { \"areas\": [\"golf-greens\"], \"tasks\": [\"grind\", \"seasonal-overhaul\"], \"orRead\": [\"land-width\"], \"sheetStates\": \"land-width\" },",
                "\"when\": { \"areas\": [\"golf-grens\"], \"tasks\": [\"grind\", \"seasonal-overhaul\"], \"orRead\": [\"land-width\"], \"sheetStates\": \"land-width\" },"
            )
            {
                Shipped =
                    "\"when\": { \"tasks\": [\"grind\", \"seasonal-overhaul\"], \"orRead\": [\"land-width\"], \"sheetStates\": \"land-width\" },",
            },
            new(
                "SR0007",
                "A site that names a text nobody packed cites nothing, and its reports look as if no law spoke.",
                "site-alder-reach/site.json",
                "\"name\": \"Alder Reach Parks Trust\",\n\"jurisdictions\": [\"uk-puwer-1998\"],",
                "\"name\": \"Alder Reach Parks Trust\",\n\"jurisdictions\": [\"gb\"],"
            )
            {
                Shipped = "\"name\": \"Alder Reach Parks Trust\",",
            },
            new(
                "SR0008",
                "Who set a height, owns a lock or vouched for a procedure must be somebody.",
                Season,
                "\"by\": \"lead-01\",",
                "\"by\": \"lead-10\","
            ),
            new(
                "SR0010",
                "Two figures printed for one limit are two limits: where they are not roundings of one length, one of them is a slip of the pen, and a reading would be held against it.",
                Small,
                "\"step\": { \"governing\": \"0.0005 in\", \"printed\": \"0.012 mm\" },",
                "\"step\": { \"governing\": \"0.0005 in\", \"printed\": \"0.025 mm\" },"
            )
            {
                ToldAs = "value.unreadable",
            },
            new(
                "SR0011",
                "Such a pair may well be what the manual prints; a reading between the two figures passes in one system of units and not in the other.",
                Large,
                "\"parallelism\": { \"governing\": \"0.006 in\", \"printed\": \"0.15 mm\" },",
                "\"parallelism\": { \"governing\": \"0.006 in\", \"printed\": \"0.14 mm\" },"
            ),
            new(
                "SR0012",
                "No unit could ever be within such limits: every job would be held.",
                Large,
                "\"lower\": { \"governing\": \"0.250 in\", \"printed\": \"6.35 mm\" },",
                "\"lower\": { \"governing\": \"1.250 in\", \"printed\": \"31.75 mm\" },"
            )
            {
                ToldAs = "value.contradiction",
            },
            new(
                "SR0013",
                "Who works to such a target is held by the limits for doing so.",
                Season,
                "{ \"area\": \"golf-greens\", \"sheet\": \"reel-125-9-510\", \"quantity\": \"height-of-cut\", \"target\": \"3.8 mm\" },",
                "{ \"area\": \"golf-greens\", \"sheet\": \"reel-125-9-510\", \"quantity\": \"height-of-cut\", \"target\": \"1.5 mm\" },"
            )
            {
                Shipped =
                    "{ \"area\": \"golf-greens\", \"quantity\": \"height-of-cut\", \"target\": \"3.8 mm\" },",
            },
            new(
                "SR0014",
                "One system of units governs throughout a sheet: what is rounded in one limit would else be exact in the next.",
                Small,
                "\"parallelism\": { \"governing\": \"0.002 in\", \"printed\": \"0.050 mm\" },",
                "\"parallelism\": { \"governing\": \"0.050 mm\", \"printed\": \"0.002 in\" },"
            ),
            new(
                "SR0015",
                "Clicks are counted from the step and from where the two adjusters stand; a limit that no adjuster sets sends people nowhere.",
                Metric,
                "\"adjuster\": \"clearance\",\n\"step\": \"0.020 mm\",",
                "\"adjuster\": \"groomer\",\n\"step\": \"0.020 mm\","
            ),
            new(
                "SR0016",
                "Whoever works exactly as the sheet teaches must come out within its limits. Feelers prove an interval a little wider than themselves.",
                Small,
                "\"lower\": { \"governing\": \"0.0005 in\", \"printed\": \"0.012 mm\" },",
                "\"lower\": { \"governing\": \"0.001 in\", \"printed\": \"0.025 mm\" },"
            ),
            new(
                "SR0017",
                "Each adjustment would void the reading that the one before it asked for: the work has no end.",
                Small,
                "{ \"adjuster\": \"groomer\" },",
                "{ \"adjuster\": \"groomer\", \"disturbs\": [{ \"quantity\": \"height-of-cut\" }] },"
            ),
            new(
                "SR0018",
                "Values at the blade ends are reckoned from two stations; without them the rule would judge one place and call it the width.",
                "base/attachments-and-wear.rules.json",
                "\"check\": { \"kind\": \"limit-on-quantity\", \"quantity\": \"land-width\", \"against\": \"sheet\", \"where\": \"stations\" },",
                "\"check\": { \"kind\": \"limit-on-quantity\", \"quantity\": \"land-width\", \"against\": \"sheet\", \"where\": \"stations-and-ends\" },"
            ),
            new(
                "SR0019",
                "The order puts a school in force that this sheet has no procedure for: nothing could be judged. (The order names `light-contact` for this sheet.)",
                Metric,
                "\"schools\": [{ \"school\": \"light-contact\" }, { \"school\": \"air-gap\", \"passes\": \"0.05 mm\", \"stops\": \"0.08 mm\" }],",
                "\"schools\": [{ \"school\": \"air-gap\", \"passes\": \"0.05 mm\", \"stops\": \"0.08 mm\" }],"
            ),
            new(
                "SR0020",
                "A sheet hangs on the wall: people read their order of work and their cautions from it.",
                Metric,
                "\"cautions\": [\"A sharp reel cuts at rest: wear cut-resistant gloves, turn it with a tool, keep fingers out of the nip.\"]",
                "\"cautions\": []"
            )
            {
                Spoil = folder =>
                {
                    string path = folder.At(Metric);
                    string text = File.ReadAllText(path);
                    int from = text.IndexOf("\"cautions\": [", StringComparison.Ordinal);
                    File.WriteAllText(path, text[..from] + "\"cautions\": []\n}\n");
                },
            },
            new(
                "SR0021",
                "Whole steps come within half a step of an aim. Where the band is narrower, people turn to and fro for ever.",
                Small,
                "\"thread\": { \"pitch\": \"0.050 in\", \"ratio\": 0.5, \"parts\": 12 },",
                "\"thread\": { \"pitch\": \"0.050 in\", \"ratio\": 0.5, \"parts\": 4 },"
            ),
            new(
                "SR0022",
                "A limit that no rule reads looks kept and holds nobody.",
                Metric,
                "\"parallelism\": \"0.15 mm\",",
                "\"parallelism\": \"0.15 mm\",\n\"sideToSide\": \"0.3 mm\","
            ),
            new(
                "SR0023",
                "What a sheet does not state, no rule asks of that kind of unit. With a rule that stops, because someone could be hurt, the folder does not load until `leftOut` says why such a unit has none of it.",
                Metric,
                "{ \"quantity\": \"guards\", \"basis\": { \"kind\": \"common-practice\" } },\n{ \"quantity\": \"edge\", \"basis\": { \"kind\": \"common-practice\" } }",
                "{ \"quantity\": \"edge\", \"basis\": { \"kind\": \"common-practice\" } }"
            ),
            new(
                "SR0070",
                "With two procedures in force it would be chance by which one a job is judged.",
                "site-alder-reach/procedures/pedestrian.json",
                "\"machines\": [\"M-05\", \"M-10\", \"M-11\"],",
                "\"machines\": [\"M-01\", \"M-05\", \"M-10\", \"M-11\"],"
            ),
            new(
                "SR0071",
                "To loosen a rule is for whom the site lets release, another than who does the work.",
                Registers,
                Waiver("lead-01"),
                Waiver("tech-01")
            )
            {
                Shipped = "\"format\": \"registers/1\",",
            },
            new(
                "SR0072",
                "Pressure or charge that comes back must be looked at again in time; what the procedure does not state, no record can be held against.",
                "site-alder-reach/procedures/ride-on.json",
                "\"reaccumulates\": true,\n\"recheckMinutes\": 120,\n\"recheckLimit\": \"5 bar\",",
                "\"reaccumulates\": true,\n\"recheckMinutes\": 120,"
            )
            {
                Shipped = "\"recheckMinutes\": 120,\n\"recheckLimit\": \"5 bar\",",
            },
            new(
                "SR0073",
                "The order that came into force last holds. With two of one day their names would decide what height is right.",
                "site-alder-reach/setting-orders/S-2026-winter.json",
                "\"from\": \"2026-11-01\",",
                "\"from\": \"2026-03-01\","
            ),
            new(
                "SR0074",
                "An order may ask for less than the limit sheet allows about a target, never allow more: judged is the tighter of the two, and loosening needs a dated waiver.",
                Season,
                "{ \"area\": \"golf-greens\", \"quantity\": \"height-of-cut\", \"target\": \"3.8 mm\", \"tolerance\": \"0.1 mm\" },",
                "{ \"area\": \"golf-greens\", \"quantity\": \"height-of-cut\", \"target\": \"3.8 mm\", \"tolerance\": \"2 mm\" },"
            )
            {
                Shipped =
                    "{ \"area\": \"golf-greens\", \"quantity\": \"height-of-cut\", \"target\": \"3.8 mm\" },",
            },
            new(
                "SR0075",
                "What could hurt someone is put right first. Such a waiver counts for nothing in any finding, and whoever wrote it believes that it does.",
                Registers,
                Waiver("lead-01"),
                Waiver("lead-01", "guards-sound")
            )
            {
                Shipped = "\"format\": \"registers/1\",",
            },
            new(
                "SR0076",
                "A finding that is let out names one person, one reason and one last day; with two waivers somebody would have to guess which.",
                Registers,
                Waiver("lead-01"),
                Waiver("lead-01")
                    .Replace(
                        "}],",
                        "},\n  " + Waived("officer-01", "gloves-worn") + "],",
                        StringComparison.Ordinal
                    )
            )
            {
                Shipped = "\"format\": \"registers/1\",",
            },
            new(
                "SR0080",
                "A limit finer than any gauge of the site can prove ends every job unproven.",
                Registers,
                "{ \"id\": \"DG-01\", \"kind\": \"dial-gauge\", \"resolution\": \"0.01 mm\", \"expandedUncertainty\": \"0.009 mm\", \"measures\": [\"front-roller\"] },",
                "{ \"id\": \"DG-01\", \"kind\": \"dial-gauge\", \"resolution\": \"0.1 mm\", \"expandedUncertainty\": \"0.09 mm\", \"measures\": [\"front-roller\"] },"
            ),
            new(
                "SR0081",
                "A step that no gauge shows is a slip of the unit or a wish; believed, it would prove what nobody can read.",
                Registers,
                "{ \"id\": \"DG-01\", \"kind\": \"dial-gauge\", \"resolution\": \"0.01 mm\", \"expandedUncertainty\": \"0.009 mm\", \"measures\": [\"front-roller\"] },",
                "{ \"id\": \"DG-01\", \"kind\": \"dial-gauge\", \"resolution\": \"0.00001 mm\", \"expandedUncertainty\": \"0.0009 mm\", \"measures\": [\"front-roller\"] },"
            ),
        ];

    private static string Waiver(string by, string rule = "gloves-worn") =>
        $"\"format\": \"registers/1\",\n\"waivers\": [{Waived(by, rule)}],";

    private static string Waived(string by, string rule) =>
        $$"""{ "rule": "{{rule}}", "by": "{{by}}", "reason": "new gloves on order", "from": "2026-11-01", "until": "2026-11-30" }""";
}
