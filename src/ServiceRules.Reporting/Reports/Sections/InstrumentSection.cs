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
            gauge.Calibration is { } calibration
                ? string.Create(
                    CultureInfo.InvariantCulture,
                    $"calibrated {Day(calibration.Date)}, due {Day(calibration.Due)}, U {calibration.ExpandedUncertainty} (k = {calibration.CoverageFactor})"
                )
                : null,
            gauge.ZeroCheck is { } zero
                ? $"zero check {zero.Error}{(zero.SettingPiece is null ? "" : $" on {zero.SettingPiece}")}"
                : null,
            gauge.Inspection is { } seen
                ? $"inspected {Day(seen.Date)}: {ReportWords.Of(seen.Result)}"
                : null,
        ];
        var told = string.Join(", ", parts.OfType<string>());
        var name = $"{gauge.Id.Text} {ReportWords.Of(gauge.Kind)}";
        return told.Length == 0 ? $"{name}." : $"{name}: {told}.";
    }

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
