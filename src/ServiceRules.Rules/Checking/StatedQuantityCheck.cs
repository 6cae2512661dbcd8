using ServiceRules.Domain.Records;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>
/// Whatever a sheet asks of a quantity, some rule judges: a limit that no rule reads looks kept and holds nobody.
/// </summary>
internal static class StatedQuantityCheck
{
    public static void Run(RuleLibrary library, Remarks remarks)
    {
        if (library.Packs.IsEmpty)
        {
            return;
        }

        var rules = library
            .Packs.Where(pack => pack.Pack.Layer is not PackLayer.Jurisdiction)
            .SelectMany(pack => pack.Rules)
            .Select(rule => rule.Value)
            .ToList();
        foreach (var sheet in library.Sheets)
        {
            var judged = rules
                .Where(rule => RuleReachCheck.Reaches(rule.When, sheet.Value))
                .SelectMany(rule => JudgedBy(rule.Check))
                .ToHashSet();
            for (var index = 0; index < sheet.Value.Quantities.Length; index++)
            {
                foreach (
                    var (member, right) in Stated(sheet.Value.Quantities[index])
                        .Where(stated =>
                            !judged.Contains((sheet.Value.Quantities[index].Quantity, stated.Member))
                        )
                )
                {
                    Tell(sheet, index, member, right, remarks);
                }
            }
        }
    }

    private static void Tell(
        Placed<LimitSheet> sheet,
        int index,
        string member,
        string right,
        Remarks remarks
    )
    {
        var quantity = FileWord.Of(sheet.Value.Quantities[index].Quantity);
        var what = member.Length == 0 ? $"`{quantity}`" : $"`{member}` of `{quantity}`";
        remarks.Notice(
            DiagnosticCode.QuantityNotJudged,
            sheet,
            FormattableString.Invariant($"/quantities/{index}") + (member.Length == 0 ? "" : $"/{member}"),
            $"no rule that reaches this kind of unit judges {what}: what the sheet states there holds nobody",
            right
        );
    }

    /// <summary>What a sheet states of one quantity, and which check would judge it; no member: the quantity alone.</summary>
    private static IEnumerable<(string Member, string Right)> Stated(QuantityLimit limit)
    {
        (string Member, bool IsStated, string Right)[] members =
        [
            ("lower", limit.Lower is not null, "a `limit-on-quantity` against the `sheet`"),
            ("upper", limit.Upper is not null, "a `limit-on-quantity` against the `sheet`"),
            (
                "toleranceAboutTarget",
                limit.ToleranceAboutTarget is not null,
                "a `limit-on-quantity` against the `setting-order`"
            ),
            ("sideToSide", limit.SideToSide is not null, "a `spread` across `sides`"),
            ("acrossUnits", limit.AcrossUnits is not null, "a `spread` across `units`"),
            ("adjacentEnds", limit.AdjacentEnds is not null, "a `spread` across `adjacent-ends`"),
            ("parallelism", limit.Parallelism is not null, "a `parallelism`"),
            ("taper", limit.Taper is not null, "a `reel-form` of `taper`"),
            ("barrel", limit.Barrel is not null, "a `reel-form` of `barrel`"),
            ("twist", limit.Twist is not null, "a `twist`"),
            ("schools", !limit.Schools.IsEmpty, "a `procedural-limit` or a `contact`"),
            ("wornBelow", limit.WornBelow is not null, "a `limit-on-quantity` against `worn-below`"),
        ];
        var stated = members.Where(member => member.IsStated).ToList();
        return stated.Count == 0
            ? [("", "a rule that names this quantity, or a sheet without it")]
            : stated.Select(member => (member.Member, $"a rule with {member.Right}, or no such limit"));
    }

    private static IEnumerable<(MeasuredQuantity Quantity, string Member)> JudgedBy(Check check) =>
        check switch
        {
            Check.LimitOnQuantity { Against: LimitSource.Sheet } limit => Of(
                limit.Quantity,
                "lower",
                "upper"
            ),
            Check.LimitOnQuantity { Against: LimitSource.SettingOrder } limit => Of(
                limit.Quantity,
                "toleranceAboutTarget"
            ),
            Check.LimitOnQuantity limit => Of(limit.Quantity, "wornBelow"),
            Check.ProceduralLimit limit => Of(limit.Quantity, "schools"),
            Check.Contact contact => Of(contact.Quantity, "schools"),
            Check.Spread { Across: SpreadAcross.Sides } spread => Of(spread.Quantity, "sideToSide"),
            Check.Spread { Across: SpreadAcross.Units } spread => Of(spread.Quantity, "acrossUnits"),
            Check.Spread spread => Of(spread.Quantity, "adjacentEnds"),
            Check.Parallelism parallel => Of(parallel.Quantity, "parallelism"),
            Check.ReelForm { Of: ReelFormOf.Taper } => Of(MeasuredQuantity.ReelDiameter, "taper"),
            Check.ReelForm => Of(MeasuredQuantity.ReelDiameter, "barrel"),
            Check.Twist =>
            [
                .. Of(MeasuredQuantity.FrontRollerOnPlate, "twist"),
                .. Of(MeasuredQuantity.RearRollerOnPlate),
            ],
            Check.Relation relation => [.. Of(relation.Quantity), .. Of(relation.Other)],
            Check.Freshness freshness => Of(freshness.Quantity),
            Check.StepObtained step => Of(step.Quantity),
            Check.Presence presence => Of(presence.Quantity),
            Check.SoundCondition sound => Of(sound.Quantity),
            Check.Clip => Of(MeasuredQuantity.HeightOfCut),
            _ => [],
        };

    private static IEnumerable<(MeasuredQuantity Quantity, string Member)> Of(
        MeasuredQuantity quantity,
        params string[] members
    ) => [(quantity, ""), .. members.Select(member => (quantity, member))];
}
