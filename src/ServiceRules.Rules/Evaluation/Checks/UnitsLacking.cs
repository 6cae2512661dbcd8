using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Told beside what a record shows of the units of a machine against one another: the register knows of more units than were read, so
/// that nothing is shown of the machine as a whole. It changes no verdict: one unit may be read by itself.
/// </summary>
internal static class UnitsLacking
{
    public static IEnumerable<string> Of(JobFrame frame, MeasuredQuantity quantity)
    {
        var machine = frame.Record.Machine.Id;
        var known = frame.Context.Machines.FirstOrDefault(one => one.Id == machine)?.Units;
        var read = frame.Units.Count(unit => !UnitPlaces.Of(unit, quantity).Usable.IsEmpty);
        if (read > 0 && read < known)
        {
            yield return FormattableString.Invariant(
                $"{read} of the {known} units of machine {machine} {(read == 1 ? "has" : "have")} {Wording.Of(quantity)} here: {ToldThoughMet.SpreadNotShown}"
            );
        }
    }
}
