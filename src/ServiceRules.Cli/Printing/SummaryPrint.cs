using ServiceRules.Application.Demo;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Cli.Printing;

/// <summary>The demo's summary: what was put wrong, whether it was found, and what else was held.</summary>
internal static class SummaryPrint
{
    public static void Write(TextWriter output, DemoSummary summary)
    {
        output.WriteLine(
            $"{ReportWords.Counted(summary.Jobs, "job", "jobs")}: {summary.Released} may go out, {summary.Held} held, {summary.Stopped} stopped"
        );
        var found = summary.Faults.Count(fault => fault.IsFound);
        output.WriteLine();
        output.WriteLine($"Seeded faults: {summary.Faults.Length}, found: {found}");
        foreach (var fault in summary.Faults)
        {
            Fault(output, fault);
        }

        output.WriteLine();
        output.WriteLine($"Odd but honest, left alone: {summary.LeaveAlone.Length}");
        foreach (var job in summary.LeaveAlone)
        {
            output.WriteLine($"  {job.Job.Record.Id}  {job.Job.LeaveAlone}");
        }

        output.WriteLine();
        output.WriteLine($"Holds and stops that nothing was seeded for: {summary.Unexpected.Length}");
        foreach (var (judged, finding) in summary.Unexpected)
        {
            output.WriteLine(
                $"  {judged.Job.Record.Id}  {finding.Rule} on {finding.Subject.Key}: {finding.Statement}"
            );
        }
    }

    private static void Fault(TextWriter output, FaultOutcome outcome)
    {
        var word = outcome.IsFound ? "found " : "MISSED";
        output.WriteLine($"  {word}  {outcome.Judged.Job.Record.Id}  {outcome.Fault.Description}");
        foreach (var missed in outcome.Missed)
        {
            output.WriteLine($"          expected {missed.Rule} on {missed.Subject.Key}");
        }
    }
}
