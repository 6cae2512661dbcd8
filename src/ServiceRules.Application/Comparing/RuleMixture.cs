using ServiceRules.Application.Library;
using ServiceRules.Rules.Layering;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Comparing;

/// <summary>The old folder with one kind of its changes made: what that kind does by itself.</summary>
internal static class RuleMixture
{
    public static RuleSide Of(RuleSide old, RuleSide now, ChangeKind kind) =>
        kind switch
        {
            ChangeKind.RuleAdded => new(
                Book(
                    old.Book,
                    old.InForce.Values.Concat(
                        now.InForce.Values.Where(rule =>
                            !old.InForce.ContainsKey(rule.Id.Text) && !IsNamed(old, now, rule)
                        )
                    )
                ),
                old.Site
            ),
            ChangeKind.RuleRemoved => new(
                Book(
                    old.Book,
                    old.InForce.Values.Where(rule =>
                        now.InForce.ContainsKey(rule.Id.Text) || !IsNamed(old, now, rule)
                    )
                ),
                old.Site
            ),
            ChangeKind.Condition => Each(old, now, (rule, by) => rule with { When = by.When }),
            ChangeKind.Check => Each(
                old,
                now,
                (rule, by) => rule with { Check = by.Check, Scope = by.Scope }
            ),
            ChangeKind.Decision => Each(old, now, (rule, by) => rule with { Decision = by.Decision }),
            ChangeKind.Severity => Each(
                old,
                now,
                (rule, by) => rule with { Severity = by.Severity, Unproven = by.Unproven }
            ),
            ChangeKind.Limit => Sheets(old, now, (sheet, by) => sheet with { Quantities = by.Quantities }),
            ChangeKind.UnitKind => Sheets(old, now, (sheet, by) => by with { Quantities = sheet.Quantities }),
            ChangeKind.Setting => new(old.Book, old.Site with { SettingOrders = now.Site.SettingOrders }),
            ChangeKind.Waiver => new(old.Book, old.Site with { Waivers = now.Site.Waivers }),
            ChangeKind.Jurisdiction => new(
                old.Book,
                old.Site with
                {
                    Jurisdictions = now.Site.Jurisdictions,
                }
            ),
            _ => new(old.Book, Registers(old.Site, now.Site)),
        };

    /// <summary>Whether a rule that one side lacks is among the old rules once the site names what it names now.</summary>
    private static bool IsNamed(RuleSide old, RuleSide now, Rule rule) =>
        RulesInForce.Of(old.Book.Packs, now.Site.Jurisdictions).Any(one => one.Id == rule.Id);

    private static RuleSide Each(RuleSide old, RuleSide now, Func<Rule, Rule, Rule> changed) =>
        new(
            Book(
                old.Book,
                old.InForce.Values.Select(rule =>
                    now.InForce.TryGetValue(rule.Id.Text, out var by) ? changed(rule, by) : rule
                )
            ),
            old.Site
        );

    /// <summary>The rules in force as one pack: of which layer each came is settled.</summary>
    public static RuleBook Book(RuleBook old, IEnumerable<Rule> rules) =>
        old with
        {
            Packs =
            [
                new()
                {
                    Id = new("mixture"),
                    Version = "0",
                    Title = "mixture",
                    Layer = PackLayer.Base,
                    Rules = [.. rules],
                },
            ],
        };

    private static RuleSide Sheets(
        RuleSide old,
        RuleSide now,
        Func<LimitSheet, LimitSheet, LimitSheet> changed
    ) =>
        new(
            old.Book with
            {
                Sheets =
                [
                    .. old.Book.Sheets.Select(sheet =>
                        now.Book.Sheet(sheet.Id.Text) is { } by ? changed(sheet, by) : sheet
                    ),
                ],
            },
            old.Site
        );

    private static SiteRegisters Registers(SiteRegisters old, SiteRegisters now) =>
        now with
        {
            Jurisdictions = old.Jurisdictions,
            SettingOrders = old.SettingOrders,
            Waivers = old.Waivers,
        };
}
