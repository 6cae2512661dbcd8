using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;

namespace ServiceRules.Formats.Ledger;

/// <summary>How long contents are kept, as a document.</summary>
public static class RetentionFormat
{
    public const int YearsMost = 100;

    private static readonly ObjectShape<Retention> Root = Shape.Object<Retention>(
        "retention",
        "How long contents are kept after the day of the job, in years; what is left out is kept for ever.",
        o =>
        {
            var records = o.Optional("records", Years(), "records, and comments on them", one => one.Records);
            var assessments = o.Optional(
                "assessments",
                Years(),
                "assessments, and the registers frozen beside them",
                one => one.Assessments
            );
            var reports = o.Optional("reports", Years(), "reports on records", one => one.Reports);
            return v => new Retention
            {
                Records = v.Get(records),
                Assessments = v.Get(assessments),
                Reports = v.Get(reports),
            };
        }
    );

    /// <summary>The version that is written today.</summary>
    public static DocumentFormat<Retention> Current { get; } = new("retention", 1, ReadLimits.Record, Root);

    private static JsonShape<int> Years() => Shape.Whole(1, YearsMost);
}
