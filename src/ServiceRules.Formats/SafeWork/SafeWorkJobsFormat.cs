using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Ledger;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.SafeWork;

/// <summary>The jobs that a safe-work report of a period was made from, as one document.</summary>
public static class SafeWorkJobsFormat
{
    /// <summary>A large shop writes some hundred records a month.</summary>
    public const int JobsMax = 1_000;

    /// <summary>What has a canonical form: 16 MiB.</summary>
    private static readonly ReadLimits Limits = new(16 * 1024 * 1024, 2_000_000);

    private static readonly ObjectShape<SafeWorkJob> JobObject = Shape.Object<SafeWorkJob>(
        "safe-work-job",
        "A record and the registers it is judged with.",
        o =>
        {
            var record = o.Required(
                "record",
                Shape.Document(RecordFormat.Current.Identifier),
                "the service record",
                j => j.Record
            );
            var context = o.Required(
                "context",
                Shape.Document(ContextFormat.Current.Identifier),
                "the registers it is judged with",
                j => j.Context
            );
            var sender = o.Optional(
                "sender",
                LedgerEntryFormat.SenderName,
                "the account or key that sent the record to a service, by its entry in the log; left out where no sign-in was checked",
                j => j.Sender
            );
            return v => new SafeWorkJob(v.Get(record), v.Get(context)) { Sender = v.Get(sender) };
        }
    );

    /// <summary>More file names than these tell nobody more on page one.</summary>
    public const int LeftOutNamesMax = 20;

    private static readonly ObjectShape<ContradictingRecord> Contradicting =
        Shape.Object<ContradictingRecord>(
            "contradicting-record",
            "A record that stands with different content in several files; none of them is judged.",
            o =>
            {
                var record = o.Required("record", Terms.Identity, "its identity", c => c.Record);
                var files = o.Required(
                    "files",
                    Shape.List(Terms.Sentence, 1, LeftOutNamesMax),
                    "names of the files, without their folders; of very many the first",
                    c => c.Files
                );
                return v => new ContradictingRecord(v.Get(record), v.Get(files));
            }
        );

    private static readonly ObjectShape<LeftOut> LeftOutObject = Shape.Object<LeftOut>(
        "left-out",
        "Files that were looked at and are not among the jobs.",
        o =>
        {
            var count = Shape.Whole(0, 1_000_000);
            var unusable = o.Required("unusable", count, "could not be used", l => l.Unusable);
            var repeated = o.Required("repeated", count, "hold a record twice", l => l.Repeated);
            var superseded = o.Required("superseded", count, "hold an earlier stage", l => l.Superseded);
            var outside = o.Required("outside", count, "of another day", l => l.Outside);
            var names = o.Items(
                "names",
                Terms.Sentence,
                LeftOutNamesMax,
                "names of those that could not be used, without their folders; of very many the first",
                l => l.Names
            );
            var contradicting = o.Items(
                "contradicting",
                Contradicting,
                LeftOutNamesMax,
                "records that stand with different content in several files; of very many the first",
                l => l.Contradicting
            );
            return v => new LeftOut(v.Get(unusable), v.Get(repeated), v.Get(superseded), v.Get(outside))
            {
                Names = v.Get(names),
                Contradicting = v.Get(contradicting),
            };
        }
    );

    private static readonly ObjectShape<SafeWorkJobs> Root = Shape.Object<SafeWorkJobs>(
        "safe-work-jobs",
        "The jobs of a period with the registers that each is judged with.",
        o =>
        {
            var from = o.Required("from", Terms.Day, "first day of the period", j => j.From);
            var until = o.Required("until", Terms.Day, "last day of the period", j => j.Until);
            var leftOut = o.Required(
                "leftOut",
                LeftOutObject,
                "files that are not among them",
                j => j.LeftOut
            );
            var jobs = o.Required(
                "jobs",
                Shape.List(JobObject, 0, JobsMax),
                "the jobs, by day and then identity",
                j => j.Jobs
            );
            o.Check(
                v => v.Get(from) <= v.Get(until),
                until,
                "the period ends before it begins",
                "that day or a later one"
            );
            return v => new SafeWorkJobs(v.Get(from), v.Get(until), v.Get(leftOut), v.Get(jobs));
        }
    );

    /// <summary>The version that is written today.</summary>
    public static DocumentFormat<SafeWorkJobs> Current { get; } = new("safe-work-jobs", 1, Limits, Root);
}
