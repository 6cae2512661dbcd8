using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Filed;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Recall;

/// <summary>
/// A gauge was found out: which past verdicts would change? Every record in which it was used is judged again by the
/// same judge with its readings corrected. Where nobody knows since when the error was there, it is judged without the
/// error, with half and with all of it: what comes out the same each time stands.
/// </summary>
public sealed class RecallGauge(RecordGathering files, AssessRecord judging)
{
    // A verdict on a two-sided limit can part between the ends; halfway is where it would.
    private static readonly ImmutableArray<decimal> Shares = [0.5m, 1m];

    /// <summary>Judges again.</summary>
    /// <param name="found">What was found wrong.</param>
    /// <param name="paths">Files and folders with records.</param>
    /// <param name="each">Told of each record judged, for who shows progress.</param>
    public Recalled Recall(FoundError found, IEnumerable<string> paths, Action<int, int>? each = null)
    {
        ArgumentNullException.ThrowIfNull(found);
        SortedSet<Id<Instrument>> gauges = [];
        // Whether a lock or a person was elsewhere is told by records that the gauge is not in.
        Dictionary<Id<ServiceRecord>, ServiceRecord> others = [];
        var gathered = files.Gather(
            paths,
            filed =>
            {
                others[filed.Record.Id] = filed.Record with { Units = [] };
                return Naming(filed, found, gauges);
            }
        );
        var beside = judging.Beside(others.Values);
        var inTime = gathered.Kept.Where(filed => IsInTime(filed.Record.Date, found)).ToList();
        var recalled = ImmutableArray.CreateBuilder<RecalledRecord>(inTime.Count);
        foreach (var filed in inTime)
        {
            recalled.Add(Again(filed, found, beside));
            each?.Invoke(recalled.Count, inTime.Count);
        }

        return new Recalled
        {
            Found = found,
            Kind = gathered.Kept.Select(filed => (InstrumentKind?)GaugeOf(filed, found).Kind).LastOrDefault(),
            Records = recalled.MoveToImmutable(),
            OutsideTheTime = gathered.Kept.Length - inTime.Count,
            Gauges = [.. gauges],
            Files = gathered.Files,
        };
    }

    private static FiledRecord? Naming(FiledRecord filed, FoundError found, SortedSet<Id<Instrument>> gauges)
    {
        gauges.UnionWith(filed.Record.Instruments.Select(gauge => gauge.Id));
        return filed.Record.Instruments.Any(gauge => gauge.Id == found.Instrument) ? filed : null;
    }

    private static bool IsInTime(DateOnly day, FoundError found) =>
        !(found.From > day) && !(found.Until < day);

    private static Instrument GaugeOf(FiledRecord filed, FoundError found) =>
        filed.Record.Instruments.First(gauge => gauge.Id == found.Instrument);

    private static RecalledRecord Again(FiledRecord filed, FoundError found, AssessRecord judging)
    {
        Correction correction = new(found);
        var onTheDay = ZeroCheckEvidence.Of(GaugeOf(filed, found), found);
        var read = ReadWith(filed.Record, correction);
        var was = Judged(filed.Record, filed, judging);
        // What no reading rests on cannot change, and where the error was not there nothing is corrected.
        var shares =
            read.Count == 0 || onTheDay == ErrorOnTheDay.Absent ? []
            : onTheDay == ErrorOnTheDay.InFull ? [1m]
            : Shares;
        var corrected = shares
            .Select(share => Judged(correction.Of(filed.Record, share), filed, judging))
            .ToList();
        return new RecalledRecord
        {
            File = filed.File,
            Record = filed.Record,
            Book = was.Book,
            Was = was.Assessment.Job,
            WouldBe = (corrected.Count == 0 ? was : corrected[^1]).Assessment.Job,
            OnTheDay = onTheDay,
            Readings = read.Count,
            Verdicts = Verdicts(was, corrected, read, onTheDay),
            IsReleasedThroughout = corrected.TrueForAll(one =>
                one.Assessment.Job.Disposition == Disposition.Release
            ),
        };
    }

    private static Assessed Judged(ServiceRecord record, FiledRecord filed, AssessRecord judging) =>
        judging.Assess(record, filed.Context, filed.Book);

    /// <summary>The entries read with the gauge, as JSON pointers.</summary>
    private static HashSet<string> ReadWith(ServiceRecord record, Correction correction) =>
        [
            .. record.Units.SelectMany(
                (unit, at) =>
                    Enumerable
                        .Range(0, unit.Entries.Length)
                        .Where(entry => correction.IsReadWith(unit.Entries, entry))
                        .Select(entry => FormattableString.Invariant($"/units/{at}/entries/{entry}"))
            ),
        ];

    private static ImmutableArray<RecalledVerdict> Verdicts(
        Assessed was,
        List<Assessed> corrected,
        HashSet<string> read,
        ErrorOnTheDay onTheDay
    )
    {
        var fitness = was
            .Book.Packs.SelectMany(pack => pack.Rules)
            .Where(rule => rule.Check is Check.Recency)
            .Select(rule => rule.Id.Text)
            .ToHashSet(StringComparer.Ordinal);
        var again = corrected
            .Select(one =>
                one.Assessment.Findings.ToDictionary(finding => (finding.Rule, finding.Subject.Key))
            )
            .ToList();
        return
        [
            .. was
                .Assessment.Findings.Where(finding => !fitness.Contains(finding.Rule))
                .Select(finding => Answer(finding, [.. again.Select(one => Same(one, finding))], onTheDay))
                .Where(one => one.Answer != RecallAnswer.Stands || RestsOn(one.Was, read))
                .OrderByDescending(one => one.Answer)
                .ThenBy(one => one.Was.Subject.Key, StringComparer.Ordinal)
                .ThenBy(one => one.Was.Rule, StringComparer.Ordinal),
        ];
    }

    private static Finding Same(Dictionary<(string, string), Finding> findings, Finding finding) =>
        findings.GetValueOrDefault((finding.Rule, finding.Subject.Key), finding);

    private static RecalledVerdict Answer(Finding was, ImmutableArray<Finding> again, ErrorOnTheDay onTheDay)
    {
        // With all of the error it may have come round to the same again, and half of it tells.
        var other = again.LastOrDefault(one => one.Verdict != was.Verdict || one.Effect != was.Effect);
        return (other, onTheDay) switch
        {
            (null, _) => new(was, again.IsEmpty ? was : again[^1], RecallAnswer.Stands),
            (_, ErrorOnTheDay.InFull) => new(was, other, RecallAnswer.Changes),
            _ => new(was, other, RecallAnswer.CannotBeTold),
        };
    }

    private static bool RestsOn(Finding finding, HashSet<string> read) =>
        finding.Evidence.Any(pointer => read.Any(entry => IsOf(pointer, entry)));

    private static bool IsOf(string pointer, string entry) =>
        pointer.StartsWith(entry, StringComparison.Ordinal)
        && (pointer.Length == entry.Length || pointer[entry.Length] == '/');
}
