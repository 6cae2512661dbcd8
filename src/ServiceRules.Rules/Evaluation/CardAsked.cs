using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;

namespace ServiceRules.Rules.Evaluation;

/// <summary>What a job card asks for that the setting order does not, and whether that is taken.</summary>
/// <param name="Asked">The request.</param>
/// <param name="Ordered">The target that it moves away from; null: no order in force sets one.</param>
/// <param name="Order">The order of that target.</param>
/// <param name="NotTaken">Why it is not taken; null: it is.</param>
public sealed record CardAsked(
    RequestedSetting Asked,
    AreaTarget? Ordered,
    SettingOrder? Order,
    string? NotTaken
)
{
    /// <summary>There is no register to hold the person who asked against.</summary>
    public bool IsUnheld { get; init; }

    /// <summary>Whether the card's figure is the target.</summary>
    public bool IsTaken => NotTaken is null;

    /// <summary>In words: who asked for what on which card, and what else would be asked.</summary>
    public string Words
    {
        get
        {
            var card = Asked.Card is { } name ? $"card {name}" : "the job card";
            var by = Asked.By is { } person ? $"by `{person}` on {card}" : $"on {card}";
            var ordered = Ordered is { } target
                ? $"setting order {Order?.Id} for {target.Area} asks for {target.Target}"
                : "no setting order in force asks for anything here";
            return NotTaken is { } why
                    ? $"{ToldThoughMet.AskedFor}{by}: {Asked.Value}; not taken: {why}; {ordered}"
                : IsUnheld
                    ? $"{ToldThoughMet.AskedFor}{by}: {Asked.Value}; {ordered}; there is no register of people to hold who asked against"
                : $"{ToldThoughMet.AskedFor}{by}: {Asked.Value}; {ordered}";
        }
    }
}
