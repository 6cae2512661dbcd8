using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine;
using ServiceRules.Evidence;
using ServiceRules.Formats.Assessments;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Assessing;

/// <summary>
/// Record, context and rules in; assessment out, with the canonical documents behind it. The one place where the four
/// meet, for a first assessment and for reproducing one years later. Safe to share between threads.
/// </summary>
public sealed class Judge
{
    private readonly RuleEngine engine = new();

    public Assessed Decide(
        (ServiceRecord Value, CanonicalDocument Document) record,
        (AssessmentContext Value, CanonicalDocument Document) context,
        (RuleBook Value, CanonicalDocument Document) book
    )
    {
        var digests = new AssessmentDigests(
            record.Document.Hash.ToString(),
            context.Document.Hash.ToString(),
            book.Document.Hash.ToString()
        );
        var assessment = engine.Assess(record.Value, context.Value, book.Value, digests);
        var written = CanonicalForm.Of(AssessmentFormat.Current.Write(assessment));
        return new Assessed(
            record.Value,
            context.Value,
            book.Value,
            assessment,
            new EvidenceFiles(record.Document, context.Document, book.Document, written)
        );
    }
}
