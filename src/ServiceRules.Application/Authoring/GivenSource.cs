namespace ServiceRules.Application.Authoring;

/// <summary>What is given of one source of energy.</summary>
/// <param name="Source">Its name in events.</param>
/// <param name="Member">Which of its members.</param>
/// <param name="Text">What it says.</param>
public sealed record GivenSource(string Source, string Member, string Text);
