using ServiceRules.Domain.Records;

namespace ServiceRules.Reporting.Reports.Words;

/// <summary>Lines of the bench log in words.</summary>
public static class BenchWords
{
    public static string Told(BenchEntry entry) =>
        entry switch
        {
            Reading reading => Read(reading),
            Adjustment turned => Turned(turned),
            Grinding ground => Ground(ground),
            PartFitted part => Fitted(part),
            _ => throw new ArgumentOutOfRangeException(nameof(entry), entry, null),
        };

    private static string Read(Reading reading)
    {
        string?[] parts =
        [
            reading.Phase is { } phase ? PhaseWord(phase) : null,
            ReportWords.Of(reading.Quantity),
            StationWord(reading.Station),
            reading.Blade is { } blade ? $"blade {blade}" : null,
            Observed(reading.Observed),
            reading.Instrument is { } gauge ? $"({gauge.Text})" : null,
            reading.Withdrawn is { } why ? $"(withdrawn: {why})" : null,
        ];
        return string.Join(" ", parts.OfType<string>());
    }

    private static string PhaseWord(ReadingPhase phase) =>
        phase switch
        {
            ReadingPhase.Found => "found:",
            ReadingPhase.Left => "left:",
            _ => "between:",
        };

    private static string? StationWord(Station? station) =>
        station switch
        {
            Station.AtDistance at => $"at {at.FromLeft}",
            Station.Named { Name: StationName.Left } => "left",
            Station.Named { Name: StationName.Middle } => "middle",
            Station.Named { Name: StationName.Right } => "right",
            _ => null,
        };

    public static string Observed(Observation observed) =>
        observed switch
        {
            Observation.Measured measured => measured.Value.ToString(),
            Observation.MeasuredAngle angle => angle.Value.ToString(),
            Observation.FeelerTest test =>
                $"{string.Join(" + ", test.Feelers)} feeler {(test.Passes ? "passes" : "does not pass")}",
            Observation.Contact contact => ReportWords.Of(contact.State),
            Observation.Paper paper => ReportWords.Of(paper.Result),
            Observation.Seen seen => ReportWords.Of(seen.Condition),
            _ => throw new ArgumentOutOfRangeException(nameof(observed), observed, null),
        };

    private static string Turned(Adjustment turned)
    {
        var way = turned.Direction is { } direction ? $" {ReportWords.Of(direction)}" : "";
        var amount = turned.Amount switch
        {
            AdjustmentAmount.Steps steps => ReportWords.Counted(steps.Count, "step", "steps"),
            AdjustmentAmount.Distance distance => distance.Value.ToString(),
            _ => "amount not stated",
        };
        return $"turned {ReportWords.Of(turned.Adjuster)}, {ReportWords.Of(turned.Side)}{way} {amount}";
    }

    private static string Ground(Grinding ground)
    {
        var sizes = (ground.Before, ground.After) switch
        {
            ({ } before, { } after) => $", {before} to {after}",
            ({ } before, null) => $", from {before}",
            (null, { } after) => $", to {after}",
            _ => "",
        };
        return $"{ReportWords.Of(ground.Kind)}{sizes}";
    }

    private static string Fitted(PartFitted part)
    {
        var identity = part.Identity is null ? "" : $" {part.Identity}";
        var note = part.Note is null ? "" : $" ({part.Note})";
        return $"fitted {ReportWords.Of(part.Part)}{identity}{note}";
    }

    /// <summary>When it was, and by whom where that is another person than before.</summary>
    public static string When(BenchEntry entry, bool byOther)
    {
        string?[] parts = [entry.At is { } at ? TimePrint.Clock(at) : null, byOther ? entry.By?.Text : null];
        var told = string.Join(" ", parts.OfType<string>());
        return told.Length == 0 ? "" : $", {told}";
    }
}
