using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>The units of the machine held against one another.</summary>
internal static class SetSection
{
    public static IEnumerable<Block> Of(JobView job)
    {
        var findings = job.SetFindings.ToList();
        if (findings.Count == 0)
        {
            yield break;
        }
        yield return Paragraph.Heading(2, "Units together", job.Heading);
        var contradictions = new ContradictionsTold();
        foreach (var finding in findings)
        {
            yield return FindingBlock.Of(
                job,
                finding,
                VerdictPrint.Of(finding.Verdict),
                contradictions: contradictions
            );
        }
    }
}
