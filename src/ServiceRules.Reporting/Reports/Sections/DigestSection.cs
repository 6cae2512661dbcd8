using ServiceRules.Application.Assessing;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>What was judged by what, so that anyone can judge it again and get the same.</summary>
internal static class DigestSection
{
    public static Block Of(JobView job)
    {
        var files = job.Assessed.Evidence;
        var rows = new (string Name, string Digest)[]
        {
            (EvidenceFiles.RecordName, files.Record.Hash.ToString()),
            (EvidenceFiles.ContextName, files.Context.Hash.ToString()),
            (EvidenceFiles.RulesName, files.Rules.Hash.ToString()),
            (EvidenceFiles.AssessmentName, files.Assessment.Hash.ToString()),
        };
        return Of(
            rows,
            job.Heading,
            $"Attached to this file in canonical JSON (RFC 8785); verdict semantics {Assessment.SemanticsVersion}. "
                + "The same record, context and rules give the same assessment. Check signature, attachments and "
                + "verdict, offline: servicerules verify FILE.pdf"
        );
    }

    public static Together Of(
        IEnumerable<(string Name, string Digest)> rows,
        TextStyle heading,
        string told
    ) =>
        new(
            new Stack([
                Paragraph.Heading(2, "Digests and attached evidence", heading),
                Columned.Of([.. rows.Select(row => Line(row.Name, row.Digest))], 2),
                new Paragraph(told, Palette.TinyQuiet),
            ])
        );

    private static Row Line(string name, string digest) =>
        new(
            [
                new Column(ColumnWidth.Fixed(50), new Paragraph(name, Palette.TinyBold)),
                new Column(ColumnWidth.Share(), new Paragraph(digest, Palette.Label)),
            ],
            4
        );
}
