using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Wear;

namespace ServiceRules.Application.History;

/// <summary>Makes the document of a history.</summary>
public static class HistoryWriting
{
    private const int RateDecimals = 9;
    private const int HourDecimals = 1;

    /// <summary>The document of a history.</summary>
    public static HistoryDocument Of(HistoryTold told)
    {
        ArgumentNullException.ThrowIfNull(told);
        var files = told.Files;
        return new(
            told.From,
            told.Through,
            new(files.Records, files.Repeated, files.Superseded, files.Problems.Length),
            [.. told.Actions.Select(Action)],
            [.. told.Units.Select(Unit)],
            [
                .. told.Offsets.Select(one => new HistoryDocument.Offset(
                    one.Machine,
                    one.Area,
                    one.Season,
                    one.Pairs,
                    one.Learned?.Median,
                    one.Learned?.Least,
                    one.Learned?.Greatest
                )),
            ],
            [
                .. told.Gauges.Select(one => new HistoryDocument.Gauge(
                    one.Gauge,
                    one.Kind,
                    one.Checks,
                    one.First,
                    one.Last,
                    [
                        .. one.Off.Select(check => new HistoryDocument.Check(
                            check.Record,
                            check.Day,
                            check.Error
                        )),
                    ],
                    one.Drift?.Moved
                )),
            ],
            [
                .. told.GaugePairs.Select(one => new HistoryDocument.GaugePair(
                    one.Quantity,
                    one.First,
                    one.Second,
                    one.Pairs,
                    one.Difference,
                    one.WorstEn,
                    one.Disagreeing,
                    one.IsTheGauge
                )),
            ],
            [.. told.Processes.Select(Process)]
        );
    }

    private static HistoryDocument.Action Action(HistoryAction action) =>
        new(
            action.Kind,
            action.Due,
            action.Earliest,
            action.Unit?.Unit,
            action.Unit?.Machine,
            action.Size?.Quantity,
            action.Step?.Adjuster,
            action switch
            {
                { Gauge: { } gauge } => [gauge.Gauge],
                { Pair: { } pair } => [pair.First, pair.Second],
                _ => [],
            }
        );

    private static HistoryDocument.OneUnit Unit(UnitOutlook unit) =>
        new(
            unit.Site,
            unit.Unit,
            unit.Machine,
            unit.Area,
            unit.Sheet,
            unit.Reel,
            unit.Bedknife,
            unit.Jobs,
            Rounded(unit.PerWeek),
            [.. unit.Sizes.Select(Size)],
            unit.Relief is { } relief
                ? new(relief.ReadOn, relief.LandThen, relief.LandNow, relief.DiameterLeft)
                : null,
            unit.Grind is { } grind
                ? new(grind.Since, Rounded(grind.Hours), Rounded(grind.DueIn), grind.On)
                : null,
            unit.TakeUp is { } takeUp
                ? new(
                    takeUp.Since,
                    takeUp.SetAnew,
                    takeUp.StepsIn,
                    Rounded(takeUp.Hours),
                    Rounded(takeUp.Rate),
                    Rounded(takeUp.Own?.Times),
                    takeUp.IsSignal,
                    takeUp.OddOne
                )
                : null,
            [.. unit.Steps.Select(Step)],
            unit.Shield is { } shield
                ? new(
                    shield.Since,
                    shield.GapThen,
                    shield.On,
                    shield.GapRead,
                    shield.Expected,
                    shield.Follows,
                    shield.LooksCopied
                )
                : null
        );

    private static HistoryDocument.Size Size(SizeOutlook size) =>
        new(
            size.Quantity,
            [
                .. size.Points.Select(point => new HistoryDocument.Point(
                    point.Record,
                    point.Day,
                    point.Hours,
                    point.Value
                )),
            ],
            size.Limit,
            size.Remaining,
            size.Robust is { } robust ? Trend(robust.Slope, size.ByRobust) : null,
            size.Line is { } line ? Trend(line.Slope, size.ByLine) : null,
            size.Running is { } running ? Rounded(running.Slope) : null,
            size.PerGrind,
            size.GrindsSeen,
            size.GrindsLeft
        );

    private static HistoryDocument.Trend Trend(WearRate rate, SizeOutlook.Forecast? forecast)
    {
        var reaches = forecast?.Hours as WearForecast.Reaches;
        return new(
            Rounded(rate),
            reaches?.Level.Value,
            Rounded(reaches?.Left),
            Rounded(reaches?.Earliest),
            Rounded(reaches?.Latest),
            forecast?.Days?.On,
            forecast?.Days?.Earliest,
            forecast?.Days?.Latest
        );
    }

    private static HistoryDocument.Step Step(StepOutlook step)
    {
        var interval = step.Learned?.PerStep.AsInterval();
        return new(
            step.Adjuster,
            step.Quantity,
            step.Trials,
            step.Jobs,
            interval?.Lower?.Value,
            step.Learned?.PerStep is MeasuredValue measured ? measured.Value : null,
            interval?.Upper?.Value,
            step.Stated,
            step.Answer
        );
    }

    private static HistoryDocument.Process Process(ProcessOutlook process) =>
        new(
            process.Rules,
            process.Sheet,
            process.Quantity,
            process.Readings,
            process.IsFromMiddle,
            process.Mean,
            process.Process?.StandardDeviation,
            process.Process?.Drifts,
            process.Process?.IsGamma,
            process.Lower,
            process.Upper,
            process.Risk?.OutAmongAccepted.Value,
            process.Risk?.Consumers.Value,
            process.Risk?.Producers.Value
        );

    private static decimal? Rounded(decimal? times) =>
        times is { } one ? decimal.Round(one, HourDecimals) : null;

    private static RunningTime? Rounded(RunningTime? time) => time is { } one ? Rounded(one) : null;

    private static RunningTime Rounded(RunningTime time) =>
        RunningTime.FromHours(decimal.Round(time.Hours, HourDecimals));

    private static WearRate Rounded(WearRate rate) =>
        WearRate.FromMillimetresPerHour(decimal.Round(rate.MillimetresPerHour, RateDecimals));
}
