using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Authoring;

/// <summary>One figure of a limit sheet.</summary>
/// <param name="Quantity">Of which quantity.</param>
/// <param name="Member">Which of its members, as the file calls it.</param>
/// <param name="Figure">The figure as printed.</param>
public sealed record GivenLimit(MeasuredQuantity Quantity, string Member, DualPrint Figure);
