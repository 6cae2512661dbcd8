using System.Globalization;
using ServiceRules.Domain.Records;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>The bench log of a unit in the order of the work: read, turned, ground, fitted.</summary>
internal static class TurnedList
{
    public static IEnumerable<Block> Of(JobView job, UnitView unit)
    {
        if (unit.Work.Entries.IsEmpty)
        {
            yield break;
        }
        yield return Paragraph.Heading(3, "What was read and turned, in order", Palette.SubHeading);
        var lines = unit.Work.Entries.Select((entry, index) => Line(job, entry, index + 1)).ToList();
        yield return Columned.Of(lines, Columns);
    }

    private const int Columns = 3;

    private static Paragraph Line(JobView job, BenchEntry entry, int number) =>
        new([
            new Span(string.Create(CultureInfo.InvariantCulture, $"{number} "), Palette.TinyQuiet),
            new Span(job.Say(Told(entry)) + When(entry), entry is Reading ? Palette.Tiny : Palette.TinyBold),
        ]);

    private static string Told(BenchEntry entry) =>
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

    private static string Observed(Observation observed) =>
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

    private static string When(BenchEntry entry)
    {
        string?[] parts = [entry.At is { } at ? TimePrint.Clock(at) : null, entry.By?.Text];
        var told = string.Join(" ", parts.OfType<string>());
        return told.Length == 0 ? "" : $", {told}";
    }
}
