using System.Collections.Immutable;
using System.Text.Json;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Importing;
using ServiceRules.Application.Submitting;
using ServiceRules.Cli.Setup;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Cli.Printing;

/// <summary>What comes of the records of a table: each as it is done, then how many.</summary>
internal sealed class ImportPrint(Session session, string file)
{
    private int told;
    private int untold;
    private int added;
    private int stood;
    private int refused;
    private int sound;

    /// <summary>Nothing of the file can be used.</summary>
    public int Unusable(ImmutableArray<RowProblem> problems)
    {
        Tell(problems);
        TellRest();
        return ExitCode.Unusable;
    }

    public void Tried(MappedRecord record, AssessOutcome? outcome)
    {
        switch (outcome)
        {
            case AssessOutcome.Judged { Assessed: var assessed }:
                sound++;
                session.Tell(
                    $"{record.Id}: would be submitted, {assessed.Assessment.Job.Disposition.ToString().ToLowerInvariant()}"
                );
                break;
            case AssessOutcome.Refused { Problems: var problems }:
                Refused(record, record.Of(problems));
                break;
            default:
                Refused(record, record.Problems);
                break;
        }
    }

    public int TriedAll()
    {
        TellRest();
        session.Tell(
            $"Nothing was filed: {ReportWords.Counted(sound, "record is", "records are")} sound, {refused} refused. What stands in "
                + "the store was not looked at."
        );
        return refused == 0 ? ExitCode.Good : ExitCode.NotGood;
    }

    public void Filed(ImportedRecord one)
    {
        if (one.Stored is { } stored)
        {
            _ = one.Stood ? stood++ : added++;
            session.Tell(
                $"{stored.Record.Entry.Subject}: record {(one.Stood ? "stands already as" : "is")} entry {stored.Record.Index}, "
                    + Disposition(stored.AssessmentBytes)
            );
            return;
        }

        switch (one.Outcome)
        {
            case SubmissionOutcome.Conflict { Refusal: var refusal }:
                refused++;
                Line(
                    one.Record,
                    $"{refusal}{string.Concat(refusal.Differences.Take(3).Select(change => $"; {change.Pointer}: stands {change.Old ?? "nothing"}, the table says {change.New ?? "nothing"}"))}"
                );
                break;
            case SubmissionOutcome.Declined { Refusal: var refusal }:
                refused++;
                Line(one.Record, refusal.ToString());
                break;
            default:
                Refused(one.Record, one.Problems);
                break;
        }
    }

    /// <param name="outcome">What came of all of them.</param>
    /// <param name="records">How many there are.</param>
    public int FiledAll(ImportOutcome outcome, int records)
    {
        TellRest();
        session.Tell(
            $"Filed: {ReportWords.Counted(added, "record", "records")}; {stood} stood already; {refused} refused."
        );
        if (outcome.Stopped is { } stopped)
        {
            session.Error.WriteLine(
                $"{file}: the store could take no more, {records - outcome.Records.Length} of {records} records were not filed: "
                    + Said(stopped)
                    + "; the same command again goes on from here"
            );
            return ExitCode.Failed;
        }

        return outcome.IsWhole ? ExitCode.Good : ExitCode.NotGood;
    }

    private static string Said(SubmissionOutcome stopped) =>
        stopped switch
        {
            SubmissionOutcome.Trouble trouble => trouble.Message,
            SubmissionOutcome.Broken broken => $"the ledger is not sound: {broken.Fault}",
            _ => throw new InvalidOperationException("an outcome that stops nothing"),
        };

    private static string Disposition(ReadOnlyMemory<byte>? assessment)
    {
        if (assessment is not { } bytes)
        {
            return "its assessment is no longer kept";
        }

        using var document = JsonDocument.Parse(bytes);
        return document.RootElement.GetProperty("job").GetProperty("disposition").GetString()!;
    }

    private void Refused(MappedRecord record, ImmutableArray<RowProblem> problems)
    {
        refused++;
        Line(record, $"refused, {ReportWords.Counted(problems.Length, "problem", "problems")}:");
        Tell(problems);
    }

    private void Line(MappedRecord record, string what)
    {
        if (told <= TableLimits.ProblemsTold)
        {
            session.Error.WriteLine(
                $"{file}: {record.Id ?? record.Key} (from row {record.FirstRow}): {what}"
            );
        }
    }

    private void Tell(ImmutableArray<RowProblem> problems)
    {
        foreach (var problem in problems)
        {
            if (++told <= TableLimits.ProblemsTold)
            {
                session.Error.WriteLine($"{file}: {problem}");
            }
            else
            {
                untold++;
            }
        }
    }

    private void TellRest()
    {
        if (untold > 0)
        {
            session.Error.WriteLine(
                $"{file}: and {ReportWords.Counted(untold, "more problem", "more problems")}"
            );
        }
    }
}
