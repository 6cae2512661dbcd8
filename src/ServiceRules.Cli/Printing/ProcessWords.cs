using System.Globalization;
using ServiceRules.Application.History;
using ServiceRules.Domain.Conformity;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Cli.Printing;

/// <summary>What the shop leaves, and what the rule in force makes of it.</summary>
internal static class ProcessWords
{
    public static string Of(ProcessOutlook process)
    {
        var system = process.System;
        var mean = process.IsFromMiddle
            ? $"{HistoryWords.Signed(process.Mean, system)} from the middle of its limits"
            : HistoryWords.Fine(process.Mean, system);
        var head =
            $"{ReportWords.Sentence(ReportWords.Of(process.Quantity))} on {process.Sheet} ({string.Join(", ", process.Rules)}): {ReportWords.Counted(process.Readings, "value", "values")}, mean {mean}";
        if (process.Process is not { } spread)
        {
            return $"{head}; ten that differ are needed to say more (common practice)";
        }

        var drift = spread.Drifts ? " Values follow one another, so this is an indication only." : "";
        return $"{head}, standard deviation {HistoryWords.Fine(spread.StandardDeviation, system)} with the gauge's own scatter in it, limits {Limits(process)}.{Model(spread)}{Risks(process.Risk)}{drift}";
    }

    /// <summary>The model is a choice, and the one that is not the usual one is named.</summary>
    private static string Model(ProcessSpread spread) =>
        spread.IsGamma ? " Taken as gamma-distributed, since it cannot fall below zero." : "";

    private static string Limits(ProcessOutlook process) =>
        (process.Lower, process.Upper) switch
        {
            ({ } lower, { } upper) when process.IsFromMiddle && lower == -upper =>
                $"±{HistoryWords.Fine(upper, process.System)}",
            ({ } lower, { } upper) =>
                $"{HistoryWords.Fine(lower, process.System)} to {HistoryWords.Fine(upper, process.System)}",
            ({ } lower, null) => $"at least {HistoryWords.Fine(lower, process.System)}",
            (null, { } upper) => $"at most {HistoryWords.Fine(upper, process.System)}",
            _ => "none",
        };

    /// <summary>Of a thousand: chances that people can picture.</summary>
    private static string Risks(GlobalRisk? risk) =>
        risk is null
            ? ""
            : $" Of a thousand passed, {InAThousand(risk.OutAmongAccepted.Value)} in fact out; of a thousand left, {InAThousand(risk.Producers.Value)} held back though good; both are stated rather too high, since the gauge's scatter counts twice (derived, JCGM 106).";

    private static string InAThousand(decimal share)
    {
        var count = share * 1000m;
        return count switch
        {
            < 0.05m => "none is",
            < 1m => "fewer than one is",
            _ => string.Create(CultureInfo.InvariantCulture, $"about {count:0} are"),
        };
    }
}
