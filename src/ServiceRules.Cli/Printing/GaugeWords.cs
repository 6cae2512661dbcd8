using System.Globalization;
using ServiceRules.Application.History;
using ServiceRules.Domain.Quantities;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Cli.Printing;

/// <summary>Gauges over a season, in words.</summary>
internal static class GaugeWords
{
    public static string Of(GaugeOutlook gauge)
    {
        var checks = ReportWords.Counted(gauge.Checks, "zero check", "zero checks");
        var head = $"{gauge.Gauge} ({ReportWords.Of(gauge.Kind)}): {checks}";
        var creep = gauge.Drift is { } drift
            ? $"; the zero moved by {HistoryWords.Signed(drift.Moved, gauge.System)} over that time, {HistoryWords.Percent(drift.Level)} sure that it moves: set it, and find out why (derived)"
            : "";
        return gauge.Off.IsEmpty ? $"{head}, all within a step{creep}" : $"{head}, {Off(gauge)}{creep}";
    }

    public static string Of(GaugePairOutlook pair)
    {
        var head =
            $"{pair.First} and {pair.Second} read the same {ReportWords.Of(pair.Quantity)} {ReportWords.Counted(pair.Pairs, "time", "times")}: {Apart(pair)}";
        if (pair.Disagreeing == 0)
        {
            return $"{head}; they agree within their uncertainties every time";
        }

        var en = string.Create(CultureInfo.InvariantCulture, $"{pair.WorstEn:0.0}");
        var apart =
            $"; {ReportWords.Counted(pair.Disagreeing, "time", "times")} they do not agree (normalised error up to {en}, should be 1 at most)";
        return pair.IsTheGauge
            ? $"{head}{apart}, on {pair.DisagreeingOn.Length} units: it is a gauge; try both on one setting piece"
            : $"{head}{apart}, on {pair.DisagreeingOn[0]} alone: the unit may have moved in between, or it is a gauge; read that unit again with both";
    }

    private static string Apart(GaugePairOutlook pair)
    {
        var difference = HistoryWords.Fine(pair.Difference.Abs, pair.System);
        var nothing = HistoryWords.Fine(Length.Zero, pair.System);
        var way = pair.Difference > Length.Zero ? "higher" : "lower";
        return difference == nothing ? "alike on average" : $"{pair.First} {difference} {way} on average";
    }

    /// <summary>When it was off and by how much, and what to do about the jobs of those days.</summary>
    private static string Off(GaugeOutlook gauge)
    {
        var worst = gauge.Off.MaxBy(check => check.Error.Value.Abs)!;
        var size = worst.Error.Value < Length.Zero ? worst.Error.ToString()[1..] : worst.Error.ToString();
        var way = worst.Error.Value > Length.Zero ? "high" : "low";
        var (first, last) = (gauge.Off[0].Day, gauge.Off[^1].Day);
        var when =
            first == last
                ? $"on {HistoryWords.Day(first)}"
                : $"from {HistoryWords.Day(first)} to {HistoryWords.Day(last)}";
        var since = gauge.Last > last ? ", right again since" : ", and that is its last check";
        return $"{gauge.Off.Length} off by more than a step {when}, up to {size} {way}{since}; "
            + $"`recall {gauge.Gauge} --error \"{worst.Error}\"` tells which verdicts that touches";
    }
}
