using ServiceRules.Application.History;
using ServiceRules.Domain.Wear;

namespace ServiceRules.Cli.Printing;

/// <summary>One thing that needs somebody: which unit, what, and what to do.</summary>
internal static class ActionWords
{
    public static string Of(HistoryAction action)
    {
        return action.Kind switch
        {
            ActionKind.PastLimit => $"{SizeWords.Stand(action.Size!)} {Replace(action.Size!)}",
            ActionKind.LastGrind =>
                $"{SizeWords.Stand(action.Size!)} The next grind takes it past the limit: have the next {Part(action.Size!)} ready.",
            ActionKind.Limit => $"{SizeWords.Stand(action.Size!)} {Forecast(action)}",
            ActionKind.Relief => UnitWords.Relief(action.Unit!)!,
            ActionKind.Grind => UnitWords.Grind(action.Unit!)!,
            ActionKind.TakenUpFast or ActionKind.OddOneOut => UnitWords.TakeUp(action.Unit!)!,
            ActionKind.Step => UnitWords.Step(action.Step!),
            ActionKind.Shield => UnitWords.Shield(action.Unit!)!,
            ActionKind.Gauge => GaugeWords.Of(action.Gauge!),
            ActionKind.GaugesPart => GaugeWords.Of(action.Pair!),
            _ => throw new ArgumentOutOfRangeException(nameof(action), action.Kind, "no such action"),
        };
    }

    private static string Replace(SizeOutlook size) =>
        size.Side == LimitSide.Lower ? $"Replace the {Part(size)}." : "Grind the relief.";

    private static string Part(SizeOutlook size) =>
        size.Quantity == Domain.Records.MeasuredQuantity.BedknifeLip ? "bedknife" : "reel";

    private static string Forecast(HistoryAction action)
    {
        var earliest =
            action.Earliest is { } day && day != action.Due
                ? $", by {HistoryWords.Day(day)} at the earliest"
                : "";
        if (action.Size!.ByRobust is { Hours: WearForecast.Reached { By: var by } })
        {
            return $"By the line through its readings it is past the limit by {HistoryWords.Length(by, action.Size.Last.System)}, though the last was inside: read it again, and {(action.Size.Quantity == Domain.Records.MeasuredQuantity.LandWidth ? "grind the relief" : $"have the next {Part(action.Size)} ready")}.";
        }

        var left = action.Size.ByRobust is { Hours: WearForecast.Reaches reaches }
            ? $"At the wear seen, grinds included, the limit is {HistoryWords.Hours(reaches.Left)} away{earliest}"
            : "The limit is near";
        return $"{left}: plan the next {Part(action.Size)}.";
    }
}
