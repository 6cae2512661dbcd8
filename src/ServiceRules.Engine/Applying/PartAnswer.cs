namespace ServiceRules.Engine.Applying;

/// <summary>Whether one part of what a rule asks holds; parts that a rule leaves out are not asked.</summary>
/// <param name="Part">The part.</param>
/// <param name="Holds">Whether it does.</param>
public sealed record PartAnswer(AskedPart Part, bool Holds);
