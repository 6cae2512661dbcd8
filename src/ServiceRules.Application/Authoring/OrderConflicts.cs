using ServiceRules.Application.Library;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Checking;

namespace ServiceRules.Application.Authoring;

/// <summary>
/// Where two setting orders speak of the same thing on the same days. An order without a last day is in force until it is
/// replaced, so that a later one may take its place; anything else has to be meant.
/// </summary>
internal static class OrderConflicts
{
    /// <summary>Every place of a standing order that a new one runs into.</summary>
    /// <param name="over">Orders that the new one knowingly takes precedence over, which needs a later first day.</param>
    public static IEnumerable<string> Of(
        LoadedRules rules,
        SettingOrder order,
        IReadOnlyCollection<string> over
    )
    {
        var orders = rules.Library.Orders;
        foreach (var named in over.Where(id => !orders.Any(one => one.Value.Id.Text == id)))
        {
            yield return $"--over: there is no setting order `{named}`; accepted: one of {string.Join(", ", orders.Select(one => one.Value.Id.Text).Order(StringComparer.Ordinal))}";
        }

        foreach (
            var standing in orders.Where(one => Overlap(one.Value, order) && !IsReplaced(one.Value, order))
        )
        {
            var isOver = over.Contains(standing.Value.Id.Text);
            if (isOver && standing.Value.From < order.From)
            {
                continue;
            }

            foreach (var (pointer, what) in Same(standing.Value, order))
            {
                var place = rules.PlaceOf(standing, pointer);
                yield return FormattableString.Invariant(
                    $"{place.File}:{place.Line}:{place.Column} {pointer}: `{standing.Value.Id}` already orders {what}, {Days(standing.Value)}; "
                )
                    + (
                        isOver
                            ? "of two orders the one that came into force last counts, so that --over needs a later --from"
                            : $"accepted: other days; or --over {standing.Value.Id} and a later first day, to take precedence while both are in force"
                    );
            }
        }
    }

    private static string Days(SettingOrder order) =>
        order.Until is { } until
            ? FormattableString.Invariant($"{order.From:yyyy-MM-dd} to {until:yyyy-MM-dd}")
            : FormattableString.Invariant($"from {order.From:yyyy-MM-dd} until replaced");

    private static bool Overlap(SettingOrder one, SettingOrder other) =>
        !(one.Until < other.From) && !(other.Until < one.From);

    private static bool IsReplaced(SettingOrder one, SettingOrder other) =>
        one.From < other.From ? one.Until is null : other.From < one.From && other.Until is null;

    private static IEnumerable<(string Pointer, string What)> Same(SettingOrder standing, SettingOrder order)
    {
        for (var at = 0; at < standing.Targets.Length; at++)
        {
            var target = standing.Targets[at];
            if (
                order.Targets.Any(one =>
                    one.Quantity == target.Quantity
                    && one.Area == target.Area
                    && Meet(one.Sheet, target.Sheet)
                )
            )
            {
                yield return (
                    FormattableString.Invariant($"/targets/{at}"),
                    $"{FileWord.Of(target.Quantity)} on {target.Area}: {target.Target}"
                );
            }
        }

        for (var at = 0; at < standing.Schools.Length; at++)
        {
            var choice = standing.Schools[at];
            if (order.Schools.Any(one => one.Sheet == choice.Sheet))
            {
                yield return (
                    FormattableString.Invariant($"/schools/{at}"),
                    $"the school of {choice.Sheet}: {FileWord.Of(choice.School)}"
                );
            }
        }

        for (var at = 0; at < standing.Mowing.Length; at++)
        {
            var mowing = standing.Mowing[at];
            if (order.Mowing.Any(one => one.Area == mowing.Area && Meet(one.Sheet, mowing.Sheet)))
            {
                yield return (FormattableString.Invariant($"/mowing/{at}"), $"the speeds on {mowing.Area}");
            }
        }
    }

    // Left out, it is every unit on the area.
    private static bool Meet(string? one, string? other) => one is null || other is null || one == other;
}
