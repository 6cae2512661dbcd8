namespace ServiceRules.Formats.Json.Shapes;

/// <summary>A relation between the members of one object, with the words for its breach.</summary>
internal sealed record MemberCheck(Func<MemberValues, bool> Holds, string At, string What, string Accepted);
