namespace ServiceRules.Host.Due;

/// <summary>One page of what falls due.</summary>
/// <param name="Items">The soonest first.</param>
/// <param name="Next">Where the next page begins, for <c>after</c>; left out on the last.</param>
/// <param name="LookedThrough">
/// When the stored records were looked through, of several sites the longest ago; left out: those of one never were yet. Registers
/// count as they are.
/// </param>
public sealed record DueAnswer(IReadOnlyList<ToldDue> Items, string? Next, DateTimeOffset? LookedThrough);
