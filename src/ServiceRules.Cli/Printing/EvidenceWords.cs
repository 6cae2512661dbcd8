using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Cli.Printing;

/// <summary>An entry of a record that a finding rests on, in words; the JSON pointer finds it.</summary>
internal static class EvidenceWords
{
    public static string Of(ServiceRecord record, string pointer)
    {
        var told = pointer.Split('/') switch
        {
            ["", "units", var unit, "entries", var entry, ..]
                when At(record.Units, unit) is { } work && At(work.Entries, entry) is { } line =>
                $"unit {work.Id}: {BenchWords.Told(line)}{BenchWords.When(line, byOther: true)}",
            ["", "units", var unit, ..] when At(record.Units, unit) is { } work =>
                $"unit {work.Id}, limit sheet {work.Sheet}",
            ["", "timeline", var at, ..] when At(record.Timeline, at) is { } one =>
                $"{EventPrint.When(one.At, record.Date)} {EventPrint.Told(one)}, by {one.Actor}",
            ["", "instruments", var at, ..] when At(record.Instruments, at) is { } gauge => GaugeOf(gauge),
            ["", "releases", var at, ..] when At(record.Releases, at) is { } release =>
                $"released by {release.By}: {release.Reason}",
            ["", "signOff"] when record.SignOff is { } signed =>
                $"signed off by {signed.By} at {TimePrint.Full(signed.At)}",
            ["", "followUp"] when record.FollowUp is { } looked =>
                $"looked at again by {looked.By} at {TimePrint.Full(looked.At)}: {ReportWords.Of(looked.Result)}",
            ["", "date"] => record.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            ["", "people"] => string.Join(
                ", ",
                record.People.Select(person => $"{person.Id} ({ReportWords.Of(person.Role)})")
            ),
            ["", "machine", ..] => $"machine {record.Machine.Id}",
            _ => "",
        };
        return told.Length == 0 ? pointer : $"{pointer}  {told}";
    }

    /// <summary>The gauges that the readings behind a finding were taken with, each with how good it is.</summary>
    public static IEnumerable<string> Gauges(ServiceRecord record, Finding finding)
    {
        var used = finding
            .Evidence.Select(pointer => pointer.Split('/'))
            .Select(parts =>
                parts is ["", "units", var unit, "entries", var entry, ..]
                && At(record.Units, unit) is { } work
                && At(work.Entries, entry) is Reading { Instrument: { } gauge }
                    ? gauge.Text
                    : null
            )
            .OfType<string>()
            .ToHashSet(StringComparer.Ordinal);
        return record
            .Instruments.Select((gauge, at) => (gauge, at))
            .Where(one => used.Contains(one.gauge.Id.Text))
            .Select(one => FormattableString.Invariant($"/instruments/{one.at}  {GaugeOf(one.gauge)}"));
    }

    private static string GaugeOf(Instrument gauge)
    {
        string?[] parts =
        [
            ReportWords.Of(gauge.Kind),
            gauge.Resolution is { } step ? $"shows steps of {step}" : null,
            gauge.Tolerance is { } tolerance ? $"true to {tolerance}" : null,
            gauge.Calibration is { } calibration
                ? string.Create(
                    CultureInfo.InvariantCulture,
                    $"calibrated to ± {calibration.ExpandedUncertainty} (k = {calibration.CoverageFactor:0.##}) until {calibration.Due:yyyy-MM-dd}"
                )
                : null,
            gauge.ZeroCheck is { } zero ? $"zero check {zero.Error}" : null,
            gauge.ZeroCheckAfter is { } after ? $"zero check after the job {after.Error}" : null,
            gauge.RepeatabilityStudies.IsEmpty && gauge.Repeatability is { } spread
                ? $"repeats to {spread} (standard deviation)"
                : null,
            gauge.RepeatabilityStudies.IsEmpty ? null : $"repeats as studied: {Studies(gauge)}",
            gauge.Inspection is { } inspection
                ? string.Create(CultureInfo.InvariantCulture, $"inspected {inspection.Date:yyyy-MM-dd}")
                : null,
        ];
        return $"gauge {gauge.Id}: {string.Join(", ", parts.OfType<string>())}";
    }

    private static string Studies(Instrument gauge) =>
        string.Join(
            ", ",
            gauge.RepeatabilityStudies.Select(study =>
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{study.Deviation} on {study.DegreesOfFreedom} degrees of freedom"
                )
            )
        );

    private static T? At<T>(ImmutableArray<T> list, string index)
        where T : class =>
        int.TryParse(index, NumberStyles.None, CultureInfo.InvariantCulture, out var at) && at < list.Length
            ? list[at]
            : null;
}
