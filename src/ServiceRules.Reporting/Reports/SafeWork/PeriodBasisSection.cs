using System.Collections.Immutable;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Sections;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>What was not judged, what the report rests on, and its signature.</summary>
internal static class PeriodBasisSection
{
    /// <summary>Its heading, by which what page one leaves out is found.</summary>
    public const string LeftOutTitle = "What was not judged";

    public static IEnumerable<Block> Of(PeriodView view, SignatureStatement signature)
    {
        yield return Paragraph.Heading(2, LeftOutTitle, Palette.Heading);
        yield return new Paragraph(NotJudged(view), Palette.Small);
        yield return GroundsSection.Of(
            SignInWords.Of(view.Period.Senders),
            GroundsSection.Times([.. view.Jobs.Select(job => (job.Job.Record, job.Job.Context.Zone))]),
            Brought(view),
            "where it was filed in one, the proof beside it says so; none can stand in it.",
            signature,
            Palette.SmallBold,
            Palette.Small
        );
        yield return Digests(view);
    }

    private static string? Brought(PeriodView view)
    {
        var brought = view
            .Jobs.Where(job => !job.Job.Context.OtherThanTheSites.IsEmpty)
            .Select(job =>
                $"{job.Job.Record.Id.Text} ({BroughtRegisters.Parts(job.Job.Context.OtherThanTheSites)})"
            )
            .ToList();
        return brought.Count == 0
            ? null
            : $"handed in with the record and other than the site's of that day: {string.Join("; ", brought)}.";
    }

    private static string NotJudged(PeriodView view)
    {
        var left = view.Period.LeftOut;
        var unjudged = view
            .Jobs.Where(job => job.Standing == SafeWorkStanding.NotJudged)
            .Select(job => job.Job.Record.Id.Text)
            .ToList();
        ImmutableArray<string> parts =
        [
            left.Unusable == 0
                ? ""
                : $"{Counted(left.Unusable, "file could not be used", "files could not be used")} ({string.Join(", ", left.Names)}{(left.Unusable > left.Names.Length ? ", and others" : "")})",
            left.Contradicting.IsEmpty
                ? ""
                : $"different content in several files: {string.Join("; ", left.Contradicting.Select(one => $"{one.Record} ({ReportWords.Listed(one.Files)})"))}",
            Counted(left.Outside, "record is of another day", "records are of other days"),
            Counted(
                left.Repeated,
                "file holds a record that another holds just so",
                "files hold records that others hold just so"
            ),
            Counted(
                left.Superseded,
                "file holds an earlier stage of a job",
                "files hold earlier stages of jobs"
            ),
            unjudged.Count == 0 ? "" : $"no duty applies to {string.Join(", ", unjudged)}",
        ];
        var told = string.Join("; ", parts.Where(part => part.Length > 0));
        return (told.Length == 0 ? "Nothing of what was given was left out." : $"Left out: {told}.")
            + " Work that nobody recorded is in no record. All jobs are judged by the rules attached, whatever rules were in "
            + "force on their days, with the registers that came with each record, or else with those of the site.";
    }

    private static string Counted(int count, string one, string many) =>
        count == 0 ? "" : ReportWords.Counted(count, one, many);

    private static Together Digests(PeriodView view)
    {
        var files = view.Period.Evidence;
        return DigestSection.Of(
            [
                (PeriodFiles.JobsName, files.Jobs.Hash.ToString()),
                (PeriodFiles.RulesName, files.Rules.Hash.ToString()),
                (PeriodFiles.SummaryName, files.Summary.Hash.ToString()),
            ],
            Palette.Heading,
            $"Attached to this file in canonical JSON (RFC 8785); verdict semantics {Assessment.SemanticsVersion}. The same jobs "
                + "and rules give the same summary; paths such as /jobs/3/record/timeline/5 lead into jobs.json. Check signature, "
                + "attachments and every verdict, offline: servicerules verify FILE.pdf"
        );
    }
}
