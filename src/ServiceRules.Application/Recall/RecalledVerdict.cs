using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Recall;

/// <summary>One past verdict that rests on readings with the gauge.</summary>
/// <param name="Was">The finding as it was.</param>
/// <param name="WouldBe">The finding with the readings corrected for the error.</param>
/// <param name="Answer">What becomes of it.</param>
public sealed record RecalledVerdict(Finding Was, Finding WouldBe, RecallAnswer Answer);
