namespace ServiceRules.Reporting.Verifying.Shape;

/// <summary>How many values one file may still hold: each takes far more memory than the two bytes it may be written in.</summary>
internal sealed class ValueBudget(int most)
{
    private int _left = most;

    public bool TryTake() => --_left >= 0;
}
