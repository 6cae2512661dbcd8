using System.Globalization;
using ServiceRules.Application.History;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Cli.Printing;

/// <summary>One unit over time, line by line; what nothing is known of is left out.</summary>
internal static class UnitWords
{
    public static IEnumerable<string> Of(UnitOutlook unit) =>
        unit
            .Sizes.Where(size => size.Quantity != MeasuredQuantity.LandWidth || unit.Relief is null)
            .SelectMany(SizeWords.Of)
            .Concat(new[] { Relief(unit), Grind(unit), TakeUp(unit) }.OfType<string>())
            .Concat(unit.Steps.Select(Step))
            .Concat(new[] { Shield(unit), Earlier(unit) }.OfType<string>());

    public static string? Relief(UnitOutlook unit)
    {
        if (unit.Relief is not { } relief)
        {
            return null;
        }

        var system = relief.System;
        var now =
            relief.LossSince > Length.Zero
                ? $" and {HistoryWords.Length(relief.LossSince, system)} of diameter lost since make {HistoryWords.Length(relief.LandNow, system)}"
                : "";
        var head =
            $"Land {HistoryWords.Length(relief.LandThen, system)} on {HistoryWords.Day(relief.ReadOn)}{now}";
        return relief.DiameterLeft <= Length.Zero
            ? $"{head}: relief is due (derived); read the land."
            : $"{head}: relief is due after another {HistoryWords.Length(relief.DiameterLeft, system)} of diameter (derived).";
    }

    public static string? Grind(UnitOutlook unit)
    {
        if (unit.Grind is not { } grind)
        {
            return null;
        }

        var head = grind.Since is { } day
            ? $"Last ground {HistoryWords.Day(day)}, {HistoryWords.Hours(grind.Hours)} ago"
            : $"No grind in these records, which span {HistoryWords.Hours(grind.Hours)}";
        return (grind.Every, grind.DueIn) switch
        {
            ({ } every, { } due) when due <= RunningTime.Zero =>
                $"{head}: overdue by {(grind.Since is null ? "at least " : "")}{HistoryWords.Hours(RunningTime.Zero - due)} at {every} from grind to grind.",
            ({ } every, { } due) =>
                $"{head}: next in {HistoryWords.Hours(due)}{(grind.On is { } on ? ", " + HistoryWords.Day(on) : "")}, at {every} from grind to grind.",
            _ => $"{head}.",
        };
    }

    public static string? TakeUp(UnitOutlook unit)
    {
        if (unit.TakeUp is not { } takeUp)
        {
            return null;
        }

        var since = takeUp.SetAnew ? "since it was set anew on" : "since";
        var steps = string.Create(CultureInfo.InvariantCulture, $"{takeUp.StepsIn:0.#}");
        var head =
            $"Taken up by {steps} steps a side in {HistoryWords.Hours(takeUp.Hours)} {since} {HistoryWords.Day(takeUp.Since)}";
        return takeUp switch
        {
            { IsSignal: true, Own: { } own, OddOne: { } odd } =>
                $"{head}, {Times(own.Times)} its own usual rate and {Times(odd)} the rate of its neighbours: look for a dull edge before turning further, then at bearing, frame, or for an impact (common practice).",
            { IsSignal: true, Own: { } own } =>
                $"{head}, {Times(own.Times)} its own usual rate: look for a dull edge before turning further (common practice).",
            { OddOne: { } odd } =>
                $"{head}, {Times(odd)} the rate of its neighbours: look at bearing, frame, or for an impact (common practice).",
            { Own: { } own } => $"{head}: {AsUsual(own.Times)} (common practice).",
            _ => $"{head}.",
        };
    }

    public static string Step(StepOutlook step)
    {
        var name = step.IsCarried
            ? $"{ReportWords.Sentence(ReportWords.Of(step.Quantity))} carried along by one step of {ReportWords.Of(step.Adjuster)}"
            : $"One step of {ReportWords.Of(step.Adjuster)}";
        var trials =
            $"{ReportWords.Counted(step.Trials, "trial", "trials")} in {ReportWords.Counted(step.Jobs, "job", "jobs")}";
        if (step.Learned is not { } learned)
        {
            return $"{name}: {trials} bound nothing, or contradict one another.";
        }

        var stated = step.Stated is { } sheet
            ? $", sheet {(step.IsCarried ? "at most " : "")}{HistoryWords.Fine(sheet, step.System)}"
            : "";
        return $"{name} really moves {Known(learned.PerStep, step.System)}{stated} ({trials}, derived){Answer(step.Answer)}.";
    }

    public static string? Shield(UnitOutlook unit)
    {
        if (unit.Shield is not { } shield)
        {
            return null;
        }

        var system = shield.System;
        var head =
            $"Shield gap {HistoryWords.Length(shield.GapThen, system)} on {HistoryWords.Day(shield.Since)}, {HistoryWords.Length(shield.GapRead, system)} on {HistoryWords.Day(shield.On)}, nothing turned; the reel's wear makes {HistoryWords.Length(shield.Expected, system)} of it (derived)";
        return shield switch
        {
            { LooksCopied: true } => $"{head}: the very figure of before; read it again, it may be copied.",
            { Follows: false } =>
                $"{head}: it does not follow; moved without a word, or misread. Read it again.",
            _ => $"{head}: it follows.",
        };
    }

    private static string? Earlier(UnitOutlook unit) =>
        unit.Earlier.IsEmpty
            ? null
            : "Earlier in it: "
                + string.Join(
                    ", ",
                    unit.Earlier.Select(one =>
                        $"{ReportWords.Of(one.Kind)} {one.Part ?? "not named"} until {HistoryWords.Day(one.Until)}{(one.Size is { } size ? ", last read " + HistoryWords.Length(size, one.System) : "")}"
                    )
                )
                + ".";

    private static string Known(Knowledge knowledge, UnitSystem system)
    {
        if (knowledge is MeasuredValue measured)
        {
            return UncertaintyPrint.Beside(measured.Value, measured.Expanded.Value, system);
        }

        var interval = knowledge.AsInterval();
        return (interval.Lower, interval.Upper) switch
        {
            ({ } lower, { } upper) =>
                $"between {HistoryWords.FineDown(lower.Value, system)} and {HistoryWords.FineUp(upper.Value, system)}",
            ({ } lower, null) => $"at least {HistoryWords.FineDown(lower.Value, system)}",
            (null, { } upper) => $"at most {HistoryWords.FineUp(upper.Value, system)}",
            _ => "an unknown amount",
        };
    }

    private static string Answer(StepAnswer? answer) =>
        answer switch
        {
            StepAnswer.MovesLess => ": less than stated; look for a slipping or worn adjuster",
            StepAnswer.MovesMore => ": more than stated; look for a loose or wrong adjuster",
            StepAnswer.Agrees => ": as stated",
            _ => "",
        };

    private static string AsUsual(decimal times) =>
        times switch
        {
            < 0.8m => "slower than its own usual rate",
            > 1.25m => $"{Times(times)} its own usual rate",
            _ => "as usual",
        };

    private static string Times(decimal times) =>
        string.Create(CultureInfo.InvariantCulture, $"{times:0.#} times");
}
