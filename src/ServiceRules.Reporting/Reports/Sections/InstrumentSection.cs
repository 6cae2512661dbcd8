using System.Globalization;
using ServiceRules.Domain.Records;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>The gauges used and what their fitness rests on; photos; releases by a second person.</summary>
internal static class InstrumentSection
{
    public static IEnumerable<Block> Of(JobView job)
    {
        var record = job.Record;
        if (record.Instruments.IsEmpty && record.Photos.IsEmpty && record.Releases.IsEmpty)
        {
            yield break;
        }
        if (!job.IsBrief)
        {
            yield return Paragraph.Heading(2, "Gauges and other evidence", job.Heading);
        }
        if (!record.Instruments.IsEmpty)
        {
            yield return new Paragraph(string.Join("  ", record.Instruments.Select(Gauge)), Palette.Tiny);
        }
        foreach (var budget in BudgetLines.Of(job))
        {
            yield return budget;
        }
        foreach (var release in record.Releases)
        {
            var unit = release.Unit is { } one ? $" on {one.Text}" : "";
            yield return new Paragraph(
                $"Release of {release.Rule}{unit} by {release.By.Text}, {TimePrint.Full(release.At)}: {release.Reason}",
                Palette.Tiny
            );
        }
        foreach (var photo in record.Photos)
        {
            var unit = photo.Unit is { } one ? $" ({one.Text})" : "";
            yield return new Paragraph($"Photo{unit}: {photo.Shows}, SHA-256 {photo.Sha256}", Palette.Tiny);
        }
    }

    private static string Gauge(Instrument gauge)
    {
        string?[] parts =
        [
            gauge.Resolution is { } step ? $"shows {step}" : null,
            gauge.Tolerance is { } tolerance ? $"tolerance ± {tolerance}" : null,
            gauge.Repeatability is { } spread ? $"repeats to {spread} (standard deviation)" : null,
            gauge.RepeatabilityStudies.IsEmpty ? null : $"repeats as studied: {Studies(gauge)}",
            gauge.Calibration is { } calibration
                ? $"calibrated {Day(calibration.Date)}, due {Day(calibration.Due)}, U {calibration.ExpandedUncertainty} ({Factor(calibration)})"
                : null,
            gauge.ZeroCheck is { } zero ? $"zero check {Zero(zero)}" : null,
            gauge.ZeroCheckAfter is { } after ? $"zero check after the job {Zero(after)}" : null,
            gauge.Inspection is { } seen
                ? $"inspected {Day(seen.Date)}: {ReportWords.Of(seen.Result)}"
                : null,
        ];
        var told = string.Join(", ", parts.OfType<string>());
        var name = $"{gauge.Id.Text} {ReportWords.Of(gauge.Kind)}";
        return told.Length == 0 ? $"{name}." : $"{name}: {told}.";
    }

    private static string Zero(ZeroCheck check) =>
        $"{check.Error}{(check.SettingPiece is null ? "" : $" on {check.SettingPiece}")}";

    private static string Factor(Calibration calibration)
    {
        var factor = calibration.Level is { } level
            ? $"at {level}"
            : string.Create(CultureInfo.InvariantCulture, $"k = {calibration.CoverageFactor}");
        return calibration.DegreesOfFreedom is { } degrees
            ? string.Create(CultureInfo.InvariantCulture, $"{factor}, {degrees} degrees of freedom")
            : factor;
    }

    private static string Studies(Instrument gauge) =>
        ReportWords.Listed([
            .. gauge.RepeatabilityStudies.Select(study =>
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{study.Deviation} on {study.DegreesOfFreedom} degrees of freedom"
                )
            ),
        ]);

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
