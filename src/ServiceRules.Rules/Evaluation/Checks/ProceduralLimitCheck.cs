using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// The procedure of the school in force, as it was left: with a gap, the feeler that must pass passes and the next
/// does not, the thinner tried first, at both gauging stations, nothing turned after, and nothing touches; with light
/// contact, contact is light over the full width. Heavy contact is a fault in both.
/// </summary>
internal static class ProceduralLimitCheck
{
    public static CheckOutcome Evaluate(
        Check.ProceduralLimit check,
        Rule rule,
        JobFrame frame,
        UnitFrame? unit
    )
    {
        if (unit is null)
        {
            return Subjects.EachUnit(rule, frame);
        }

        var subject = Wording.Sentence(Wording.Of(check.Quantity));
        var taught = unit.Sheet.Of(check.Quantity)?.Schools ?? [];
        if (taught.IsEmpty)
        {
            return Told.NotApplicable($"{subject}: the limit sheet teaches no procedure");
        }

        if (ContactFault.Heavy(unit, check.Quantity) is { } heavy)
        {
            return heavy;
        }

        if (SchoolFor(check.Quantity, unit, taught) is not { } school)
        {
            return Told.Unproven(
                FindingReason.NoSettingInForce,
                $"{subject}: no setting order says whether this unit runs with light contact or a gap",
                remedy: new Remedy.Act("have the lead enter the school for this kind of unit")
            );
        }

        if (taught.FirstOrDefault(each => each.School == school) is not { } procedure)
        {
            return Told.Unproven(
                FindingReason.NoSettingInForce,
                $"{subject}: the limit sheet teaches no procedure for the school that the site chose",
                remedy: new Remedy.Act("have the lead complete the limit sheet or change the setting order")
            );
        }

        return school is ContactSchool.LightContact
            ? LightContactProcedure.Evaluate(unit, check.Quantity)
            : AirGapProcedure.Evaluate(unit, check.Quantity, procedure);
    }

    /// <summary>
    /// The site chooses the school of reel and bedknife. What else may touch or clear, such as a brush, follows the sheet,
    /// which then teaches one way.
    /// </summary>
    private static ContactSchool? SchoolFor(
        MeasuredQuantity quantity,
        UnitFrame unit,
        ImmutableArray<SchoolProcedure> taught
    ) =>
        quantity is MeasuredQuantity.Clearance ? unit.School
        : taught.Length == 1 ? taught[0].School
        : null;
}
