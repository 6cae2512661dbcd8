namespace ServiceRules.Domain.Remedies;

/// <summary>left·cL + right·cR is at least (or more than) a bound: one limit at one place, exact.</summary>
internal readonly record struct StepConstraint(decimal Left, decimal Right, decimal AtLeast, bool IsStrict)
{
    /// <summary>By how much the constraint is missed; zero or less when it is kept.</summary>
    public decimal Shortfall(int left, int right) => AtLeast - ((Left * left) + (Right * right));

    public bool IsKept(int left, int right) =>
        IsStrict ? Shortfall(left, right) < 0 : Shortfall(left, right) <= 0;

    /// <summary>The right-hand steps, within a travel, that keep this constraint for given left-hand steps.</summary>
    public (int From, int To) RightSteps(int left, int travel)
    {
        if (Right == 0)
        {
            return IsKept(left, 0) ? (-travel, travel) : (1, 0);
        }

        var turningPoint = Math.Clamp((AtLeast - (Left * left)) / Right, -travel - 1, travel + 1);
        // The quotient may be off in its last digit; the neighbours are tried exactly.
        var near = (int)decimal.Floor(turningPoint);
        var first = near - 1;
        if (Right > 0)
        {
            while (first <= travel && !IsKept(left, first))
            {
                first++;
            }

            return (Math.Max(first, -travel), travel);
        }

        var last = near + 2;
        while (last >= -travel && !IsKept(left, last))
        {
            last--;
        }

        return (-travel, Math.Min(last, travel));
    }
}
