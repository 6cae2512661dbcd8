using ServiceRules.Domain.Site;
using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Rules.Checking;

/// <summary>
/// Of several setting orders the one that came into force last holds. Two of one first day that say different things leave
/// it to their names which is obeyed.
/// </summary>
internal static class OrdersCheck
{
    public static void Run(RuleLibrary library, Remarks remarks)
    {
        var known =
            new Dictionary<(DateOnly From, string Of, string Sheet), (string Said, SettingOrder Order)>();
        foreach (var order in library.Orders)
        {
            Wider(order, library, remarks);
            foreach (var (pointer, of, sheet, said) in Settings(order.Value))
            {
                var key = (order.Value.From, of, sheet);
                if (!known.TryAdd(key, (said, order.Value)) && known[key].Said != said)
                {
                    remarks.Error(
                        DiagnosticCode.OrdersDisagree,
                        order,
                        pointer,
                        $"setting order `{known[key].Order.Id}` comes into force on the same day and says {known[key].Said} where this one says {said}",
                        "one of the two, or another first day: the order that comes into force last holds"
                    );
                }
            }
        }
    }

    // Judged is the tighter of the two, so that the folder loads: what was ordered once is not written over.
    private static void Wider(Placed<SettingOrder> order, RuleLibrary library, Remarks remarks)
    {
        for (var at = 0; at < order.Value.Targets.Length; at++)
        {
            var target = order.Value.Targets[at];
            var tighter = OrderWidth
                .Tighter(library, target)
                .Select(one => $"`{one.Limit.ToleranceAboutTarget}` on {one.Sheet.Value.Id}")
                .ToList();
            if (tighter.Count > 0)
            {
                remarks.Notice(
                    DiagnosticCode.OrderWider,
                    order,
                    FormattableString.Invariant($"/targets/{at}/tolerance"),
                    $"`{target.Tolerance}` is wider than what the limit sheet allows about a target, {string.Join(", ", tighter)}, which counts all the same",
                    "no more than the sheet's, or none; an order may tighten only, and loosening needs a dated waiver"
                );
            }
        }
    }

    private static IEnumerable<(string Pointer, string Of, string Sheet, string Said)> Settings(
        SettingOrder order
    ) =>
        order
            .Targets.Select(
                (target, index) =>
                    (
                        FormattableString.Invariant($"/targets/{index}/target"),
                        $"target {target.Area} {FileWord.Of(target.Quantity)}",
                        target.Sheet ?? "",
                        $"`{target.Target}`" + (target.Tolerance is { } most ? $" within `{most}`" : "")
                    )
            )
            .Concat(
                order.Schools.Select(
                    (choice, index) =>
                        (
                            FormattableString.Invariant($"/schools/{index}/school"),
                            "school",
                            choice.Sheet,
                            $"`{FileWord.Of(choice.School)}`"
                        )
                )
            )
            .Concat(
                order.Mowing.Select(
                    (mowing, index) =>
                        (
                            FormattableString.Invariant($"/mowing/{index}"),
                            $"mowing {mowing.Area}",
                            mowing.Sheet ?? "",
                            $"`{mowing.GroundSpeed}` at `{mowing.ReelSpeed}`"
                        )
                )
            );
}
