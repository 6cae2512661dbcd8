using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Records;

/// <summary>Instruments with the evidence of their fitness.</summary>
internal static class InstrumentShapes
{
    private static readonly ObjectShape<Calibration> CalibrationObject = Shape.Object<Calibration>(
        "calibration",
        "A calibration against a traceable standard.",
        o =>
        {
            var date = o.Required("date", Terms.Day, "when it was done", c => c.Date);
            var due = o.Required("due", Terms.Day, "when the next is due", c => c.Due);
            var uncertainty = o.Required(
                "expandedUncertainty",
                Terms.Size,
                "expanded uncertainty on its certificate",
                c => c.ExpandedUncertainty
            );
            var factor = o.Optional<decimal>(
                "coverageFactor",
                Shape.Number(CertifiedCoverage.Least, CertifiedCoverage.Most),
                "coverage factor of that uncertainty",
                c => c.Level is null ? c.CoverageFactor : null
            );
            var level = o.Optional(
                "level",
                Terms.Level,
                "level of confidence of that uncertainty, where the certificate states no factor",
                c => c.Level
            );
            var degrees = o.Optional(
                "degreesOfFreedom",
                Shape.Whole(1, 10_000),
                "degrees of freedom behind it, where the certificate states them",
                c => c.DegreesOfFreedom
            );
            o.ExactlyOne(factor, level);
            o.Check(
                v => v.Get(level) is not { } stated || CertifiedCoverage.Hold(stated, v.Get(degrees)),
                degrees,
                CertifiedCoverage.Wrong,
                CertifiedCoverage.Accepted
            );
            o.Check(v => v.Get(due) >= v.Get(date), due, "due before it was done", "`date` or later");
            return v =>
                v.Get(level) is { } stated
                    ? Calibration.AtLevel(v.Get(date), v.Get(due), v.Get(uncertainty), stated, v.Get(degrees))
                    : new Calibration(
                        v.Get(date),
                        v.Get(due),
                        v.Get(uncertainty),
                        v.Get(factor).GetValueOrDefault()
                    )
                    {
                        DegreesOfFreedom = v.Get(degrees),
                    };
        }
    );

    private static readonly ObjectShape<ZeroCheck> ZeroCheckObject = Shape.Object<ZeroCheck>(
        "zero-check",
        "A check on a setting piece, at the start of the job or at its end.",
        o =>
        {
            var error = o.Required(
                "error",
                Terms.Length,
                "reading minus the setting piece's value; positive reads high",
                z => z.Error
            );
            var piece = o.Optional(
                "settingPiece",
                Terms.Identity,
                "which setting piece",
                z => z.SettingPiece
            );
            return v => new ZeroCheck(v.Get(error), v.Get(piece));
        }
    );

    private static readonly ObjectShape<RepeatabilityStudy> StudyObject = Shape.Object<RepeatabilityStudy>(
        "repeatability-study",
        "One piece read again and again by one person.",
        o =>
        {
            var deviation = o.Required(
                "deviation",
                Terms.Distance,
                "standard deviation of a single reading",
                s => s.Deviation
            );
            var degrees = o.Required(
                "degreesOfFreedom",
                Shape.Whole(1, 1_000),
                "one fewer than the readings",
                s => s.DegreesOfFreedom
            );
            return v => new RepeatabilityStudy(v.Get(deviation), v.Get(degrees));
        }
    );

    private static readonly ObjectShape<InstrumentInspection> InspectionObject =
        Shape.Object<InstrumentInspection>(
            "instrument-inspection",
            "An inspection by eye and hand, for feelers and plates.",
            o =>
            {
                var date = o.Required("date", Terms.Day, "when", i => i.Date);
                var result = o.Required("result", Choices.Condition, "what came of it", i => i.Result);
                return v => new InstrumentInspection(v.Get(date), v.Get(result));
            }
        );

    public static ObjectShape<Instrument> Instrument { get; } =
        Shape.Object<Instrument>(
            "instrument",
            "An instrument used in the job.",
            o =>
            {
                var id = o.Required("id", RecordNames.NewInstrument, "which instrument", i => i.Id);
                var kind = o.Required(
                    "kind",
                    Shape.Choice<InstrumentKind>("Kinds of instrument."),
                    "its kind",
                    i => i.Kind
                );
                var resolution = o.Optional(
                    "resolution",
                    Terms.Size,
                    "smallest step it shows",
                    i => i.Resolution
                );
                var tolerance = o.Optional(
                    "tolerance",
                    Terms.Distance,
                    "half width of the thickness tolerance of each feeler, or of a fixed-size piece",
                    i => i.Tolerance
                );
                var stacking = o.Optional(
                    "stacking",
                    Shape.Choice<StackRule>("How the tolerances of stacked feelers come together."),
                    "how the tolerances of its feelers come together in a stack; left out: worst-case",
                    i => i.Stacking
                );
                var repeatability = o.Optional(
                    "repeatability",
                    Terms.Distance,
                    "repeatability of a reading as a standard deviation, pooled by the shop",
                    i => i.Repeatability
                );
                var studies = o.Items(
                    "repeatabilityStudies",
                    StudyObject,
                    FormatLimits.JobParts,
                    "studies of its repeatability, pooled by their degrees of freedom; in place of `repeatability`",
                    i => i.RepeatabilityStudies
                );
                o.Check(
                    v => v.Get(studies).IsEmpty || v.Get(repeatability) is null,
                    studies,
                    "repeatability is stated twice",
                    "`repeatability` or `repeatabilityStudies`"
                );
                var calibration = o.Optional(
                    "calibration",
                    CalibrationObject,
                    "its calibration",
                    i => i.Calibration
                );
                var zero = o.Optional(
                    "zeroCheck",
                    ZeroCheckObject,
                    "zero check of this job",
                    i => i.ZeroCheck
                );
                var zeroAfter = o.Optional(
                    "zeroCheckAfter",
                    ZeroCheckObject,
                    "the same check again at the end of the job",
                    i => i.ZeroCheckAfter
                );
                o.Needs(zeroAfter, zero);
                o.Check(
                    v =>
                        v.Get(calibration) is not { } certified
                        || CertifiedBounds.Hold(
                            certified.ExpandedUncertainty,
                            v.Get(resolution),
                            v.Get(kind)
                        ),
                    calibration,
                    CertifiedBounds.Wrong,
                    CertifiedBounds.Accepted
                );
                var inspection = o.Optional(
                    "inspection",
                    InspectionObject,
                    "its inspection",
                    i => i.Inspection
                );
                o.Check(
                    v => v.Get(stacking) is null || v.Get(kind) is InstrumentKind.FeelerGauge,
                    stacking,
                    "only feelers are stacked",
                    "`stacking` of a `feeler-gauge`, or none"
                );
                return v => new Instrument
                {
                    Id = v.Get(id),
                    Kind = v.Get(kind),
                    Resolution = v.Get(resolution),
                    Tolerance = v.Get(tolerance),
                    Stacking = v.Get(stacking),
                    Repeatability = v.Get(repeatability),
                    RepeatabilityStudies = v.Get(studies),
                    Calibration = v.Get(calibration),
                    ZeroCheck = v.Get(zero),
                    ZeroCheckAfter = v.Get(zeroAfter),
                    Inspection = v.Get(inspection),
                };
            }
        );
}
