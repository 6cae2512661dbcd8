using ServiceRules.Application.Submitting;

namespace ServiceRules.Host.Filing;

/// <summary>What of other stored records was taken into account.</summary>
/// <param name="Records">Records that show something at the machine, or of somebody certified absent, that bears on the job.</param>
/// <param name="Elsewhere">Locks and people of the job that other records show at other machines meanwhile.</param>
/// <param name="Hidden">How many more there are that whoever asks may not see; left out where there is none.</param>
internal sealed record ToldOthers(
    IReadOnlyList<ToldOther> Records,
    IReadOnlyList<ToldElsewhere> Elsewhere,
    int? Hidden
)
{
    public static ToldOthers Of(AssessmentOthers others, int hidden = 0) =>
        new(
            [.. others.Records.Select(ToldOther.Of)],
            [.. others.Elsewhere.Select(ToldElsewhere.Of)],
            hidden == 0 ? null : hidden
        );
}
