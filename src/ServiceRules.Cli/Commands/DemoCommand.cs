using System.CommandLine;
using System.Text;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Demo;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Ledger;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Formats.Records;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Signing;
using ServiceRules.Storage;
using Spectre.Console;

namespace ServiceRules.Cli.Commands;

/// <summary><c>demo</c>: two seasons of an invented shop, made, judged, summed up and reported.</summary>
internal static class DemoCommand
{
    private const string LedgerName = "ledger";
    private const string Records = "records";
    private const string Reports = "reports";

    public static Command Of(Session session)
    {
        var output = new Option<DirectoryInfo>("--out")
        {
            Description = "Folder for records, reports and the summary.",
            HelpName = "DIR",
            DefaultValueFactory = _ => new DirectoryInfo("demo-out"),
        };
        var seed = new Option<int>("--seed")
        {
            Description = "Another number gives other wear and readings, and the same faults.",
            DefaultValueFactory = _ => DemoScenario.UsualSeed,
        };
        var command = new Command(
            "demo",
            "Makes two seasons of an invented shop, judges them, sums up and writes signed reports: 0 when every seeded fault was found and no other."
        )
        {
            output,
            seed,
            RulesInForce.Option,
            SigningKeys.Folder,
            SigningKeys.Organisation,
        };
        command.SetAction(parsed =>
            Run(parsed, parsed.GetRequiredValue(output).FullName, parsed.GetValue(seed), session)
        );
        return command;
    }

    private static int Run(ParseResult parsed, string folder, int seed, Session session)
    {
        var loaded = RulesInForce.Load(parsed);
        var judging = RulesInForce.Judging(parsed);
        MakeFolders(folder);
        using var key = SigningKeys.Open(parsed, session);
        var jobs = DemoScenario.Make(seed, loaded.Site!);
        judging = judging.Beside(jobs.Select(job => job.Record));
        var judged = new List<(DemoJob Job, Assessed Assessed)>(jobs.Length);
        ProgressLine.Run(
            session.Progress,
            "judging",
            jobs,
            job => judged.Add((job, JudgeWritten(job, folder, judging)))
        );
        var summary = DemoSummary.Of(
            judged.Select(one => new JudgedDemoJob(one.Job, one.Assessed.Assessment))
        );
        var reported = judged.Where(one => one.Job.IsNotable).Select(one => one.Assessed).ToList();
        using (var filed = LedgerInUse.OrBegun(Path.Combine(folder, LedgerName), Shelf(folder), session))
        {
            ProgressLine.Run(
                session.Progress,
                "reports",
                reported,
                one => Report(one, folder, filed.Ledger, key, session.Clock)
            );
        }
        Finish(folder, key, summary, reported.Count, session);
        return summary.IsExact ? ExitCode.Good : ExitCode.NotGood;
    }

    /// <exception cref="InputException">They cannot be made.</exception>
    private static void MakeFolders(string folder)
    {
        try
        {
            Directory.CreateDirectory(Path.Combine(folder, Records));
            Directory.CreateDirectory(Path.Combine(folder, Reports));
        }
        catch (Exception failure)
            when (!DiskFull.Is(failure) && failure is IOException or UnauthorizedAccessException)
        {
            throw new InputException($"`{folder}` cannot be made: {failure.Message}");
        }
    }

    /// <summary>Judges what was written to the file, as anybody would who is handed it.</summary>
    private static Assessed JudgeWritten(DemoJob job, string folder, AssessRecord judging)
    {
        var bytes = RecordFormat.Current.Write(job.Record);
        InputFile.Write(Path.Combine(folder, Records, job.Record.Id.Text + ".json"), bytes);
        return judging.Assess(bytes) switch
        {
            AssessOutcome.Judged { Assessed: var assessed } => assessed,
            AssessOutcome.Refused refused => throw new InvalidOperationException(
                $"the demo made a record that is refused: {job.Record.Id}: {refused.Problems}"
            ),
            _ => throw new InvalidOperationException("an unknown outcome of judging"),
        };
    }

    private static CheckpointFolder Shelf(string folder) =>
        new(CheckpointFolder.Beside(Path.Combine(folder, LedgerName)));

    /// <summary>Files the job, issues its report with the proofs inside, and puts the report's own proof beside it.</summary>
    private static void Report(
        Assessed assessed,
        string folder,
        OpenLedger ledger,
        SigningKey key,
        TimeProvider clock
    )
    {
        var path = Path.Combine(folder, Reports, assessed.Record.Id.Text + ".pdf");
        var proofs = ledger.Proofs(Filed(new FileRecord(ledger).File(assessed, null)));
        var pdf = JobReport.Write(assessed, ReportTerms.Default, key, clock.GetUtcNow(), null, proofs);
        var own = Filed(new FileReport(ledger).File(assessed, pdf, null)).Entries[^1].Entry;
        InputFile.Write(path + ReportFiling.ProofEnding, Encoding.UTF8.GetBytes(ledger.ProveWithEntry(own)));
        InputFile.Write(path, pdf);
    }

    private static FilingOutcome.Filed Filed(FilingOutcome outcome) =>
        outcome switch
        {
            FilingOutcome.Filed filed => filed,
            FilingOutcome.Refused refused => throw new InputException(
                $"the ledger of an earlier demo does not go with this one: {refused.Refusal.What}; accepted: another folder for --out"
            ),
            _ => throw new InvalidOperationException($"the ledger of the demo took nothing: {outcome}"),
        };

    private static void Finish(
        string folder,
        SigningKey key,
        DemoSummary summary,
        int reports,
        Session session
    )
    {
        using var text = new StringWriter { NewLine = "\n" };
        SummaryPrint.Write(text, summary);
        InputFile.Write(Path.Combine(folder, "summary.txt"), Encoding.UTF8.GetBytes(text.ToString()));
        InputFile.Write(
            Path.Combine(folder, "certificate.pem"),
            Encoding.ASCII.GetBytes(key.CertificatePem + "\n")
        );
        session.Output.Write(text.ToString());
        session.Output.WriteLine();
        session.Tell($"Written to {folder}:");
        session.Output.WriteLine($"  records/         {summary.Jobs} service records");
        session.Output.WriteLine(
            $"  reports/         {reports} signed reports, of the jobs named above, each with its log proof beside it"
        );
        session.Output.WriteLine("  certificate.pem  the certificate they are signed with");
        session.Output.WriteLine("  ledger/          the log that these jobs and their reports are filed in");
        session.Output.WriteLine("  summary.txt      the summary above");
    }
}
