namespace ServiceRules.Application.Tests.Library.Diagnostics;

/// <summary>What can be wrong with rules, their cases and citations.</summary>
internal static class RuleExamples
{
    private const string Wear = "base/attachments-and-wear.rules.json";
    private const string MakeSafe = "base/make-safe.rules.json";
    private const string Release = "base/release.rules.json";
    private const string Cases = "base/release.cases.json";
    private const string Law = "uk-puwer-1998/pack.json";

    public static IEnumerable<DiagnosticExample> All =>
        [
            new(
                "SR0001",
                "Findings, waivers and older assessments name a rule by its identity: two rules of one name could not be told apart.",
                Release,
                "\"id\": \"signed-off\",",
                "\"id\": \"key-kept\","
            ),
            new(
                "SR0004",
                "A case, waiver or citation of a misspelt rule proves, loosens or cites nothing, and looks as if it did.",
                Cases,
                "{ \"rule\": \"signed-off\", \"name\": \"signed by the person who did the work\", \"expect\": \"met\", \"from\": \"height-check\" }",
                "{ \"rule\": \"sign-off\", \"name\": \"signed by the person who did the work\", \"expect\": \"met\", \"from\": \"height-check\" }"
            ),
            new(
                "SR0005",
                "A rule asks for a limit, and a kind of unit that it reaches has none on its sheet: there the rule would be silent, and nobody would know.",
                Wear,
                "\"when\": { \"tasks\": [\"grind\", \"seasonal-overhaul\"], \"sheets\": [\"reel-125-9-510\"], \"sheetStates\": \"reel-diameter\" },",
                "\"when\": { \"tasks\": [\"grind\", \"seasonal-overhaul\"], \"sheetStates\": \"reel-diameter\" },"
            ),
            new(
                "SR0009",
                "A rule that can never apply keeps nobody from anything. On the machine there is always something to switch off; other conditions may fit no limit sheet.",
                MakeSafe,
                "\"when\": { \"place\": \"on-bench\" },",
                "\"when\": { \"place\": \"on-machine\", \"isolation\": false },"
            ),
            new(
                "SR0030",
                "A check looks at a unit, a set, or the job. Judged on anything else it would find nothing to judge.",
                MakeSafe,
                "\"scope\": \"job\",",
                "\"scope\": \"unit\","
            ),
            new(
                "SR0031",
                "What is read as a length cannot be sound or worn by eye, and play has no millimetres.",
                "base/clearance.rules.json",
                "\"check\": { \"kind\": \"sound-condition\", \"quantity\": \"bearing-play\" },",
                "\"check\": { \"kind\": \"sound-condition\", \"quantity\": \"clearance\" },"
            ),
            new(
                "SR0032",
                "A name that stands twice in a list is a slip: another was meant and is missing.",
                Wear,
                "\"tasks\": [\"full-service\", \"grind\", \"seasonal-overhaul\"],\n\"orRead\": [\"shield-gap\"],",
                "\"tasks\": [\"full-service\", \"grind\", \"grind\"],\n\"orRead\": [\"shield-gap\"],"
            ),
            new(
                "SR0033",
                "Someone could be hurt: what was never proven safe does not go out with a mere advice.",
                MakeSafe,
                "\"severity\": \"stop\",",
                "\"severity\": \"stop\",\n\"unproven\": \"advise\","
            ),
            new(
                "SR0034",
                "Whoever doubts a limit must be able to look it up.",
                Wear,
                "\"basis\": { \"kind\": \"published\", \"source\": \"turf reference register MK11\" },",
                "\"basis\": { \"kind\": \"published\" },"
            )
            {
                ToldAs = "name.missing",
            },
            new(
                "SR0035",
                "A unit of which no rule judges anything is held as `no-rule`: better known now than at the first such job.",
                "base/clearance.rules.json",
                "\"when\": { \"tasks\": [\"daily-check\", \"touch-up\", \"full-service\", \"grind\", \"lap\", \"clear-blockage\", \"inspect\", \"seasonal-overhaul\"] },",
                "\"when\": { \"tasks\": [\"touch-up\", \"full-service\", \"grind\", \"lap\", \"clear-blockage\", \"inspect\", \"seasonal-overhaul\"] },"
            )
            {
                Also =
                [
                    (
                        "base/clearance.rules.json",
                        "\"tasks\": [\"daily-check\", \"clear-blockage\", \"inspect\"]",
                        "\"tasks\": [\"clear-blockage\", \"inspect\"]"
                    ),
                ],
            },
            new(
                "SR0036",
                "How a site runs its programme is told with a job and holds none up.",
                "base/procedures.rules.json",
                "\"severity\": \"advise\",",
                "\"severity\": \"hold\","
            ),
            new(
                "SR0037",
                "A second rule that asks nothing more tells one fault twice, and somebody will mend one of the two only.",
                Wear,
                "\"when\": { \"tasks\": [\"grind\", \"seasonal-overhaul\"], \"sheets\": [\"reel-125-9-510\"], \"sheetStates\": \"reel-diameter\" },",
                "\"when\": { \"tasks\": [\"daily-check\", \"height-check\", \"height-change\", \"touch-up\", \"full-service\", \"grind\", \"lap\", \"clear-blockage\", \"inspect\", \"seasonal-overhaul\"], \"sheets\": [\"reel-125-9-510\"], \"sheetStates\": \"reel-diameter\" },"
            ),
            new(
                "SR0038",
                "No job could meet both rules: every one would be held, whoever does it and however.",
                "base/house-order.rules.json",
                OrderRule("\"height\", \"groomer\""),
                OrderRule("\"height\", \"clearance\"")
            )
            {
                IsWhole = true,
            },
            new(
                "SR0039",
                "A rule with a last day stays for the records of its time. After that day nothing asks what it asked.",
                Wear,
                "\"when\": { \"tasks\": [\"grind\", \"seasonal-overhaul\"], \"orRead\": [\"land-width\"], \"sheetStates\": \"land-width\" },",
                "\"when\": { \"tasks\": [\"grind\", \"seasonal-overhaul\"], \"orRead\": [\"land-width\"], \"sheetStates\": \"land-width\", \"until\": \"2026-10-31\" },"
            ),
            new(
                "SR0040",
                "A change must not loosen a rule silently. A site may ask more; to ask less takes a dated waiver by another person. (Beside it stands a `pack.json` of the layer `site`.)",
                "site-alder-reach/house.rules.json",
                HouseRule("stop"),
                HouseRule("advise")
            )
            {
                IsWhole = true,
                Beside =
                [
                    (
                        "site-alder-reach/pack.json",
                        """{ "format": "rule-pack/1", "id": "house", "version": "1", "title": "House rules", "layer": "site" }"""
                    ),
                ],
            },
            new(
                "SR0041",
                "Texts of a jurisdiction are pointers for a competent local person: the pack says what comes before them.",
                Law,
                LawPack(", \"precedence\": \"local codes come first\""),
                LawPack("")
            )
            {
                IsWhole = true,
            },
            new(
                "SR0042",
                "A law stands in the pack of its jurisdiction, so that a site cites the texts of its own place and no other.",
                Law,
                "\"layer\": \"jurisdiction\",",
                "\"layer\": \"site\","
            ),
            new(
                "SR0043",
                "A finding of today cites no text that was repealed or replaced; older records cite what was in force at their date.",
                Law,
                "\"layer\": \"jurisdiction\",\n\"from\": \"1998-12-05\",",
                "\"layer\": \"jurisdiction\",\n\"from\": \"1998-12-05\",\n\"until\": \"2026-10-31\","
            )
            {
                Shipped = "\"layer\": \"jurisdiction\",",
                Also =
                [
                    (
                        "site-alder-reach/site.json",
                        "\"name\": \"Alder Reach Parks Trust\",",
                        "\"name\": \"Alder Reach Parks Trust\", \"jurisdictions\": [\"uk-puwer-1998\"],"
                    ),
                ],
            },
            new(
                "SR0050",
                "A rule without a case for each verdict that it can give was never seen to catch what it is there to catch.",
                Cases,
                "{ \"rule\": \"handed-back\", \"name\": \"handed back\", \"expect\": \"met\", \"from\": \"height-check\" }",
                "{ \"rule\": \"handed-back\", \"name\": \"handed back\", \"expect\": \"not-applicable\", \"from\": \"height-check\" }"
            ),
            new(
                "SR0051",
                "An unsigned job is in progress, not in breach: such a case could never come out as it says.",
                Cases,
                "\"name\": \"not signed yet\",\n\"expect\": \"unproven\",",
                "\"name\": \"not signed yet\",\n\"expect\": \"not-met\","
            ),
            new(
                "SR0052",
                "A case starts from a complete record that may go out, and from the registers of its day: both stand in `fixtures/`.",
                Cases,
                "\"name\": \"signed by the person who did the work\", \"expect\": \"met\", \"from\": \"height-check\" }",
                "\"name\": \"signed by the person who did the work\", \"expect\": \"met\", \"from\": \"heights\" }"
            ),
        ];

    private static string OrderRule(string end) =>
        $$"""
            {
              "format": "rules/1",
              "rules": [
                {
                  "id": "house-order",
                  "title": "Order of work of this shop",
                  "requirement": "The height is set in its turn.",
                  "scope": "unit",
                  "check": { "kind": "order-of-work", "order": [{{end}}] },
                  "severity": "hold",
                  "basis": { "kind": "site-policy" },
                  "advice": "Set one after the other."
                }
              ]
            }
            """;

    private static string HouseRule(string severity) =>
        $$"""
            {
              "format": "rules/1",
              "rules": [
                {
                  "id": "key-kept",
                  "title": "Key out and in the box",
                  "requirement": "The key is out and kept by a person who works on the machine.",
                  "when": { "isolation": true },
                  "scope": "job",
                  "check": { "kind": "required-event", "events": ["key_removed"], "per": "job", "when": "before-work", "needs": "key", "by": "known" },
                  "severity": "{{severity}}",
                  "basis": { "kind": "site-policy" },
                  "advice": "Take the key out and keep it on you."
                }
              ]
            }
            """;

    private static string LawPack(string precedence) =>
        $$"""
            {
              "format": "rule-pack/1", "id": "uk-puwer-1998", "version": "1.0.0", "layer": "jurisdiction",
              "title": "Provision and Use of Work Equipment Regulations 1998, United Kingdom"{{precedence}}
            }
            """;
}
