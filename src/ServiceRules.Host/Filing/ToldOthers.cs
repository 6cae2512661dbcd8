using ServiceRules.Application.Submitting;

namespace ServiceRules.Host.Filing;

/// <summary>What of other stored records was taken into account.</summary>
/// <param name="Records">Records that show something at the machine, or of somebody certified absent, that bears on the job.</param>
/// <param name="Elsewhere">Locks and people of the job that other records show at other machines meanwhile.</param>
internal sealed record ToldOthers(IReadOnlyList<ToldOther> Records, IReadOnlyList<ToldElsewhere> Elsewhere)
{
    public static ToldOthers Of(AssessmentOthers others) =>
        new([.. others.Records.Select(ToldOther.Of)], [.. others.Elsewhere.Select(ToldElsewhere.Of)]);
}
