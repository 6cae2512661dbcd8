using ServiceRules.Domain.Site;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>
/// An order may tighten what the limit sheet allows about a target, never loosen it: the tighter of the two counts. Where it
/// states more, whoever ordered it believes in a limit that holds nowhere.
/// </summary>
public static class OrderWidth
{
    /// <summary>The limits that are tighter than what a target states, with the sheet and where in it they stand.</summary>
    public static IEnumerable<(Placed<LimitSheet> Sheet, QuantityLimit Limit, string Pointer)> Tighter(
        RuleLibrary library,
        AreaTarget target
    )
    {
        ArgumentNullException.ThrowIfNull(library);
        ArgumentNullException.ThrowIfNull(target);
        return target.Tolerance is { } ordered
            ? library
                .Sheets.Where(sheet => target.Sheet is null || target.Sheet == sheet.Value.Id.Text)
                .SelectMany(sheet =>
                    sheet
                        .Value.Quantities.Select((limit, index) => (sheet, limit, index))
                        .Where(one =>
                            one.limit.Quantity == target.Quantity && one.limit.IsTighterThan(ordered)
                        )
                )
                .Select(one =>
                    (
                        one.sheet,
                        one.limit,
                        FormattableString.Invariant($"/quantities/{one.index}/toleranceAboutTarget")
                    )
                )
            : [];
    }
}
