#!/usr/bin/env node
import '../bundle/bin.js';
