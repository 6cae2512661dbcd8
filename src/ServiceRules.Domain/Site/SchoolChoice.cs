namespace ServiceRules.Domain.Site;

/// <summary>Which school a kind of unit is set to.</summary>
public sealed record SchoolChoice(string Sheet, ContactSchool School);
