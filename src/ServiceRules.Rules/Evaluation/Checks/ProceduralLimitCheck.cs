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

        if (SchoolInForce.For(check.Quantity, unit) is not { } school)
        {
            return SchoolInForce.NotChosen(subject);
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
}
