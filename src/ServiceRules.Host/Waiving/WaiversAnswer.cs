namespace ServiceRules.Host.Waiving;

/// <summary>Every waiver of a site.</summary>
/// <param name="Waivers">Those of its registers, then those that were entered, the first one first.</param>
internal sealed record WaiversAnswer(IReadOnlyList<ToldWaiver> Waivers);
