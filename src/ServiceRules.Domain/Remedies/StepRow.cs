namespace ServiceRules.Domain.Remedies;

/// <summary>For one number of left-hand steps, the right-hand steps that keep every constraint.</summary>
internal readonly record struct StepRow(int Left, int RightFrom, int RightTo);
