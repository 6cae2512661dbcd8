namespace ServiceRules.Host.Packs;

/// <summary>Packs and sheets that are kept, and may be put in force.</summary>
/// <param name="IsNew">Whether they were not kept before.</param>
/// <param name="IsInForce">Whether they are those that are in force.</param>
/// <param name="Rules">Which they are.</param>
/// <param name="LeftOut">Files that were sent and not looked at: registers stay those that are here.</param>
internal sealed record StoredPacksAnswer(
    bool IsNew,
    bool IsInForce,
    ToldPacks Rules,
    IReadOnlyList<string> LeftOut
);
