using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// The site chooses the school of reel and bedknife. What else may touch or clear, such as a brush, follows the sheet,
/// which then teaches one way.
/// </summary>
internal static class SchoolInForce
{
    public static ContactSchool? For(MeasuredQuantity quantity, UnitFrame unit)
    {
        var taught = unit.Sheet.Of(quantity)?.Schools ?? [];
        return quantity is MeasuredQuantity.Clearance ? unit.School
            : taught.Length == 1 ? taught[0].School
            : null;
    }

    public static CheckOutcome NotChosen(string subject) =>
        Told.Unproven(
            FindingReason.NoSettingInForce,
            $"{subject}: no setting order says whether this unit runs with light contact or a gap",
            remedy: new Remedy.Act("have the lead enter the school for this kind of unit")
        );
}
