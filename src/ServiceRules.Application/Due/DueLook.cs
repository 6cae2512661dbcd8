namespace ServiceRules.Application.Due;

/// <summary>When the records of a site were looked through last.</summary>
/// <param name="Site">The site.</param>
/// <param name="Day">The day at the site.</param>
/// <param name="Newest">Place in the log of its newest record; -1: it had none.</param>
/// <param name="Rules">The rules in force, by their digest.</param>
/// <param name="At">When.</param>
public sealed record DueLook(string Site, DateOnly Day, long Newest, string Rules, DateTimeOffset At);
