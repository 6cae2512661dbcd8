using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Evidence;
using ServiceRules.Formats.Packs;
using ServiceRules.Formats.Registers;
using ServiceRules.Formats.SafeWork;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.SafeWork;

/// <summary>Looks through many records for those of a period and judges them by the rules in force.</summary>
public sealed class ReadPeriod(IRecordSource records, RuleBook book, SiteRegisters site, Judge judge)
{
    private const int LongestName = 80;

    /// <summary>Reads and judges; a fault where there is nothing to judge, or more than one report holds.</summary>
    /// <param name="from">First day; null: that of the earliest record.</param>
    /// <param name="until">Last day; null: that of the latest record.</param>
    /// <param name="read">The files behind it.</param>
    public PeriodOutcome Read(DateOnly? from, DateOnly? until, out FilesRead read)
    {
        var gathered = records.Gather(Kept);
        var misdated = gathered
            .Kept.Where(job => IsOutside(job.Day, from, until) && MayBeOf(job, from, until))
            .ToList();
        read = gathered.Files with { Problems = [.. gathered.Files.Problems, .. misdated.Select(Misdated)] };
        var inside = gathered
            .Kept.Where(job => !IsOutside(job.Day, from, until))
            .OrderBy(job => job.Day)
            .ThenBy(job => job.Id, StringComparer.Ordinal)
            .ThenBy(job => job.Site, StringComparer.Ordinal)
            .ToList();
        if (inside.Count == 0)
        {
            return PeriodOutcome.Refused("there is no readable record of the period among these files");
        }

        if (inside.Count > SafeWorkJobsFormat.JobsMax)
        {
            return PeriodOutcome.Refused(
                FormattableString.Invariant(
                    $"{inside.Count} records are of the period; accepted: at most {SafeWorkJobsFormat.JobsMax} in one report, so a shorter period"
                )
            );
        }

        var leftOut = new LeftOut(
            read.Problems.Length,
            read.Repeated,
            read.Superseded,
            gathered.Kept.Length - inside.Count - misdated.Count
        )
        {
            Names =
            [
                .. read
                    .Problems.Select(problem => NameOf(problem.File))
                    .Distinct(StringComparer.Ordinal)
                    .Order(StringComparer.Ordinal)
                    .Take(SafeWorkJobsFormat.LeftOutNamesMax),
            ],
            Contradicting =
            [
                .. read
                    .Contradicting.Select(one => new ContradictingRecord(
                        one.Record,
                        [.. one.Files.Select(NameOf).Take(SafeWorkJobsFormat.LeftOutNamesMax)]
                    ))
                    .Take(SafeWorkJobsFormat.LeftOutNamesMax),
            ],
        };
        var beside = Beside(gathered.Kept);
        var written = JudgePeriod.Write(
            from ?? inside[0].Day,
            until ?? inside[^1].Day,
            leftOut,
            inside.Select(job => (job.Document, ContextOf(job, beside[job.Site]), job.Sender))
        );
        return CanonicalJson.Canonicalise(written).TryGet(out var jobs, out var refusal)
            ? new JudgePeriod(judge).Decide(jobs, (book, CanonicalForm.Of(RulePackFormat.Book.Write(book))))
            : PeriodOutcome.Refused($"the records of the period are too much for one report: {refusal}");
    }

    private static bool IsOutside(DateOnly day, DateOnly? from, DateOnly? until) => day < from || day > until;

    // Dated another day than its own times: these say that it may be of the period.
    private static bool MayBeOf(Job job, DateOnly? from, DateOnly? until) =>
        !job.Days.Agree
        && job.Days is { First: { } first, Last: { } last }
        && !(last < from)
        && !(first > until);

    private static FiledProblem Misdated(Job job) =>
        new(
            job.File,
            [
                FormattableString.Invariant(
                    $"`{job.Id}` is dated {job.Day:yyyy-MM-dd}, outside the period, and its times are of {job.Days.First:yyyy-MM-dd} to {job.Days.Last:yyyy-MM-dd}: it is not judged here; accepted: a date that is one of the days of its times"
                ),
            ]
        );

    // What a file is called, in one line, whatever its name holds.
    private static string NameOf(string file)
    {
        var name = Path.GetFileName(
            file.TrimEnd(Path.DirectorySeparatorChar, Path.AltDirectorySeparatorChar)
        );
        var line = new string([
            .. name.Select(letter => char.IsControl(letter) || char.IsSurrogate(letter) ? '?' : letter),
        ]);
        return line.Length switch
        {
            0 => "?",
            > LongestName => line[..LongestName],
            _ => line,
        };
    }

    private Job Kept(FiledRecord filed) =>
        new(
            filed.File,
            filed.Record.Date,
            JobDays.Of(filed.Record, filed.Context?.Zone ?? site.Zone),
            filed.Record.Id.Text,
            filed.Context?.Site ?? site.Name,
            filed.Document,
            filed.Record with
            {
                Units = [],
            },
            BroughtContext.Of(filed, site),
            [
                .. filed
                    .Record.Units.Select(unit =>
                        unit with
                        {
                            Entries =
                            [
                                .. unit.Entries.Where(entry => entry is { At: not null, By: not null }),
                            ],
                        }
                    )
                    .Where(unit => !unit.Entries.IsEmpty),
            ],
            filed.Sender
        );

    /// <summary>What the records of each site show of locks and people; those outside the period as well.</summary>
    private Dictionary<string, WorkElsewhere> Beside(IEnumerable<Job> jobs) =>
        jobs.GroupBy(job => job.Site, StringComparer.Ordinal)
            .ToDictionary(
                own => own.Key,
                own =>
                    WorkElsewhere.Of(
                        own.Select(job => job.Record with { Units = job.Timed }),
                        own.Select(job => job.Context?.Zone).FirstOrDefault(zone => zone is not null)
                            ?? site.Zone
                    ),
                StringComparer.Ordinal
            );

    private CanonicalDocument ContextOf(Job job, WorkElsewhere beside)
    {
        var context = job.Context is { } own
            ? Beside(own, job.Record, beside)
            : ContextFreezer.Freeze(site, job.Record, beside);
        return CanonicalForm.Of(ContextFormat.Current.Write(context));
    }

    private AssessmentContext Beside(AssessmentContext own, ServiceRecord record, WorkElsewhere beside) =>
        ContextFreezer.Again(
            site,
            own,
            record,
            [.. own.Elsewhere.Union(beside.Beside(record))],
            Told(own.OtherRecords, beside.OtherRecords(record))
        );

    // What the records of the period themselves show goes before what was told of them when the job was first judged.
    private static ImmutableArray<OtherRecord> Told(
        ImmutableArray<OtherRecord> before,
        ImmutableArray<OtherRecord> now
    ) => [.. before.Where(other => !now.Any(one => one.Record == other.Record)), .. now];

    /// <summary>What is kept of a record until all are read; of its bench entries those that say when and by whom.</summary>
    private sealed record Job(
        string File,
        DateOnly Day,
        JobDays Days,
        string Id,
        string Site,
        CanonicalDocument Document,
        ServiceRecord Record,
        AssessmentContext? Context,
        ImmutableArray<UnitWork> Timed,
        string? Sender
    );
}
