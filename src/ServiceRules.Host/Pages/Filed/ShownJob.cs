using System.Globalization;
using System.Text.Json;
using ServiceRules.Application.Ledger;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Formats.Assessments;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Host.Pages.Filed;

/// <summary>What a record says, as a page tells it.</summary>
/// <param name="Facts">What it is about, by name.</param>
/// <param name="Units">Its units.</param>
/// <param name="Lanes">Its timeline.</param>
public sealed record ShownJob(
    IReadOnlyList<(string Name, string Value)> Facts,
    IReadOnlyList<ShownUnit> Units,
    ShownLanes Lanes
)
{
    /// <summary>Whether it is not signed off.</summary>
    public bool IsOpen { get; init; }

    /// <param name="log">Where the context of the assessment is kept.</param>
    /// <param name="record">The record as it is kept.</param>
    /// <param name="assessment">What judging it came to; null: it is not kept.</param>
    /// <returns>Null where the record cannot be read here.</returns>
    internal static ShownJob? Of(
        ILedgerReading log,
        ReadOnlyMemory<byte> record,
        ReadOnlyMemory<byte>? assessment
    )
    {
        if (!RecordFormat.Current.Read(record).TryGet(out var read, out _, out _))
        {
            return null;
        }

        var context =
            assessment is { } judged
            && AssessmentFormat.DigestsOf(judged.Span) is { } digests
            && log.Kept(digests.Context) is { } kept
            && ContextFormat.Current.Read(kept).TryGet(out var held, out _)
                ? held
                : null;
        var outcomes = Outcomes(assessment);
        return new(
            [.. Told(read)],
            [.. read.Units.Select(unit => ShownUnit.Of(unit, outcomes.GetValueOrDefault(unit.Id.Text)))],
            ShownLanes.Of(
                read,
                context?.Procedures.SelectMany(one => one.Sources).DistinctBy(one => one.Id).ToList(),
                context?.Zone
            )
        )
        {
            IsOpen = read.SignOff is null,
        };
    }

    private static IEnumerable<(string, string)> Told(ServiceRecord record)
    {
        string?[] machine =
        [
            record.Machine.Id.Text,
            record.Machine.Area is { } area ? $"area {area}" : null,
            record.Machine.Hours is { } hours ? $"hour meter {hours}" : null,
        ];
        yield return ("Machine", string.Join(", ", machine.OfType<string>()));
        yield return ("Day", record.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
        yield return ("Tasks", string.Join(", ", record.Tasks.Select(ReportWords.Of)));
        yield return ("Place", ReportWords.Of(record.Place));
        if (record.Complaint is { } complaint)
        {
            yield return ("Complaint", complaint);
        }

        if (!record.Requested.IsEmpty)
        {
            yield return (
                "Asked for",
                string.Join(
                    "; ",
                    record.Requested.Select(one => $"{ReportWords.Of(one.Quantity)} {one.Value}")
                )
            );
        }

        yield return (
            "People",
            string.Join("; ", record.People.Select(one => $"{one.Id.Text}, {ReportWords.Of(one.Role)}"))
        );
        if (!record.Instruments.IsEmpty)
        {
            yield return (
                "Gauges",
                string.Join(
                    "; ",
                    record.Instruments.Select(one => $"{one.Id.Text}, {ReportWords.Of(one.Kind)}")
                )
            );
        }

        yield return (
            "State",
            record.SignOff is { } signed
                ? $"signed off by {signed.By.Text}, {Time(signed.At)}"
                : "open, not signed off"
        );
        foreach (var release in record.Releases)
        {
            yield return (
                "Released",
                $"{release.Rule}{(release.Unit is { } unit ? $" on {unit.Text}" : "")} by {release.By.Text}, {Time(release.At)}: {release.Reason}"
            );
        }

        if (record.FollowUp is { } after)
        {
            var note = after.Note is { } more ? $": {more}" : "";
            yield return (
                "Looked at again",
                $"{ReportWords.Of(after.Result)}, by {after.By.Text}, {Time(after.At)}{note}"
            );
        }
    }

    // `2026-04-13T08:40:00+01:00`
    private static string Time(RecordedTime at) =>
        TimePrint.Full(at).Replace('T', ' ').Replace(":00+", " +", StringComparison.Ordinal);

    // As it is kept, of whatever version of the verdict semantics.
    private static Dictionary<string, string> Outcomes(ReadOnlyMemory<byte>? assessment)
    {
        var outcomes = new Dictionary<string, string>(StringComparer.Ordinal);
        if (assessment is not { } bytes)
        {
            return outcomes;
        }

        using var document = JsonDocument.Parse(bytes);
        if (document.RootElement.TryGetProperty("units", out var units))
        {
            foreach (var unit in units.EnumerateArray())
            {
                if (
                    unit.TryGetProperty("unit", out var id)
                    && unit.TryGetProperty("outcome", out var outcome)
                    && outcome.TryGetProperty("disposition", out var word)
                )
                {
                    outcomes[id.GetString()!] = ShownFinding.WordOfDisposition(word.GetString());
                }
            }
        }

        return outcomes;
    }
}
