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
