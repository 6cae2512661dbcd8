namespace ServiceRules.Host.Pages.Forms;

/// <summary>Something that is wrong with what was filled in.</summary>
/// <param name="Field">At which field; empty: with all of it.</param>
/// <param name="What">What, and what would be accepted.</param>
public sealed record FieldFault(string Field, string What);
