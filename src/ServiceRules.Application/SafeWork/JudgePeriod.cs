using System.Collections.Immutable;
using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Application.Assessing;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Evidence;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Formats.SafeWork;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.SafeWork;

/// <summary>
/// Jobs and rules in, a judged period out: for a first report and for judging an old one again. The documents alone
/// decide, so that both come to the same.
/// </summary>
public sealed class JudgePeriod(Judge judge)
{
    /// <summary>Judges the jobs of a document by the rules of another.</summary>
    /// <param name="jobs">A document of jobs, in canonical form.</param>
    /// <param name="book">The rules, and their canonical form.</param>
    public PeriodOutcome Decide(CanonicalDocument jobs, (RuleBook Value, CanonicalDocument Document) book)
    {
        ArgumentNullException.ThrowIfNull(jobs);
        if (!SafeWorkJobsFormat.Current.Read(jobs.Bytes).TryGet(out var told, out var problems))
        {
            return PeriodOutcome.Refused($"{PeriodFiles.JobsName}: {problems.Told[0]}");
        }

        var judged = ImmutableArray.CreateBuilder<Assessed>(told.Jobs.Length);
        for (var index = 0; index < told.Jobs.Length; index++)
        {
            if (Read(told.Jobs[index], book.Value, out var fault) is not var (record, context))
            {
                return PeriodOutcome.Refused(
                    FormattableString.Invariant($"{PeriodFiles.JobsName}: /jobs/{index}/{fault}")
                );
            }

            judged.Add(judge.Decide(record, context, book));
        }

        var all = judged.MoveToImmutable();
        if (Fault(told, all) is { } wrong)
        {
            return PeriodOutcome.Refused($"{PeriodFiles.JobsName}: {wrong}");
        }

        var summary = SafeWorkSummary.Of(told, all);
        return PeriodOutcome.Of(
            new(
                told.From,
                told.Until,
                told.LeftOut,
                all,
                new(jobs, book.Document, CanonicalForm.Of(SafeWorkSummaryFormat.Current.Write(summary)))
            )
            {
                Senders = [.. told.Jobs.Select(job => job.Sender)],
            }
        );
    }

    /// <summary>The document of jobs: each record and context as it stands in its canonical form.</summary>
    internal static byte[] Write(
        DateOnly from,
        DateOnly until,
        LeftOut leftOut,
        IEnumerable<(CanonicalDocument Record, CanonicalDocument Context, string? Sender)> jobs
    ) =>
        SafeWorkJobsFormat.Current.Write(
            new(
                from,
                until,
                leftOut,
                [
                    .. jobs.Select(job => new SafeWorkJob(NodeOf(job.Record), NodeOf(job.Context))
                    {
                        Sender = job.Sender,
                    }),
                ]
            )
        );

    private static JsonNode NodeOf(CanonicalDocument document) => JsonNode.Parse(document.Bytes.Span)!;

    private static string? Fault(SafeWorkJobs told, ImmutableArray<Assessed> judged)
    {
        for (var index = 0; index < judged.Length; index++)
        {
            var record = judged[index].Record;
            if (record.Date < told.From || record.Date > told.Until)
            {
                return $"`{record.Id}` is not of the period";
            }

            if (index > 0 && Order(judged[index - 1], judged[index]) >= 0)
            {
                return $"`{record.Id}` does not stand in the order of days and identities, each once";
            }
        }

        return null;
    }

    /// <summary>Order of jobs in a period: by day, identity, and site.</summary>
    internal static int Order(Assessed one, Assessed other)
    {
        var byDay = one.Record.Date.CompareTo(other.Record.Date);
        var byIdentity = string.CompareOrdinal(one.Record.Id.Text, other.Record.Id.Text);
        return byDay != 0 ? byDay
            : byIdentity != 0 ? byIdentity
            : string.CompareOrdinal(one.Context.Site, other.Context.Site);
    }

    private static (
        (ServiceRecord Value, CanonicalDocument Document) Record,
        (AssessmentContext Value, CanonicalDocument Document) Context
    )? Read(SafeWorkJob job, RuleBook book, out string fault)
    {
        var record = CanonicalForm.Of(Encoding.UTF8.GetBytes(job.Record.ToJsonString()));
        if (!RecordFormat.Current.Read(record.Bytes).TryGet(out var read, out var source, out var problems))
        {
            fault = $"record: {problems.Told[0]}";
            return null;
        }

        var dangling = RecordReferences.Check(read, source, book);
        if (!dangling.IsEmpty)
        {
            fault = $"record: {dangling.Told[0]}";
            return null;
        }

        var context = CanonicalForm.Of(Encoding.UTF8.GetBytes(job.Context.ToJsonString()));
        if (!ContextFormat.Current.Read(context.Bytes).TryGet(out var frozen, out var wrong))
        {
            fault = $"context: {wrong.Told[0]}";
            return null;
        }

        fault = "";
        return ((read, record), (frozen, context));
    }
}
