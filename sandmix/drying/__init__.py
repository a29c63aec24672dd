"""How damp sand dries in moving or still air, and the plan for a heap that is too wet."""
